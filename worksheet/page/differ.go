package page

import (
	"bytes"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// A Difference is the first place at which two pages say otherwise.
type Difference struct {
	Where string // the quantity, or the place, under which it stands; empty for the beginning
	Old   string // what stands there in the one, and in the other; empty for the end
	New   string
}

// Differ looks for the first difference between what two files of this package say.
// It compares words and numbers, and not how they look: two that say the same may
// still have other styles and scripts.
func Differ(old, new []byte) (d Difference, differ bool) {
	a, b := newWording(old), newWording(new)
	for {
		d.Old, d.New = a.next(), b.next()
		if d.Old != d.New {
			d.Where = orElse(b.where, a.where)
			return d, true
		}
		if d.Old == "" {
			return Difference{}, false
		}
	}
}

// A wording goes through the texts of a page's main part, one by one.
type wording struct {
	tokens *html.Tokenizer
	inside bool
	where  string
}

func newWording(file []byte) *wording {
	return &wording{tokens: html.NewTokenizer(bytes.NewReader(file))}
}

// next is the next text, empty at the end.
func (w *wording) next() string {
	for {
		switch w.tokens.Next() {
		case html.ErrorToken:
			return ""
		case html.StartTagToken, html.SelfClosingTagToken:
			if text := w.enter(w.tokens.Token()); text != "" && w.inside {
				return text
			}
		case html.EndTagToken:
			if w.tokens.Token().DataAtom == atom.Main {
				return ""
			}
		case html.TextToken:
			if text := strings.Join(strings.Fields(string(w.tokens.Text())), " "); text != "" && w.inside {
				return html.UnescapeString(text)
			}
		}
	}
}

// enter notes the place that an element begins, and gives what an attribute of it
// says: where a link leads, what an image shows, how far a bar reaches.
func (w *wording) enter(t html.Token) (says string) {
	w.inside = w.inside || t.DataAtom == atom.Main
	for _, a := range t.Attr {
		switch a.Key {
		case "id":
			if name, ok := strings.CutPrefix(a.Val, "q-"); ok {
				w.where = name
			} else {
				w.where = "#" + a.Val
			}
		case "href", "src", "title", "alt", "class", "width", "d":
			says += " " + a.Key + "=" + a.Val
		}
	}
	return strings.TrimSpace(says)
}
