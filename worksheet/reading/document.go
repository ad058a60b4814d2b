package reading

import (
	"context"
	_ "embed"
	"encoding/json"
	"html"
	"strconv"
	"strings"
	"sync"

	"inkwing/worksheet/page"
)

// Script is what a page does for its reader: fields, the tray of what is tried,
// sections that are swapped. It calls open(transport), see there, which whoever
// serves the page puts behind it.
//
//go:embed client.js
var Script string

//go:embed client.css
var styleText string

// Style is how that looks, beside [page.Style].
var Style = sync.OnceValue(func() string { return page.Sheet(styleText) })

// Frame is a frame, whose script is the transport, with the script and the style of
// a page that is worked again.
func Frame(f page.Frame) page.Frame {
	f.Script, f.Style = Script+f.Script, Style()+f.Style
	return f
}

// Document is the page as it was saved, with the answer that the script begins
// from. Of the frame, Script is the transport.
func (r *Room) Document(ctx context.Context, f page.Frame) ([]byte, error) {
	a, err := r.Work(ctx, "", nil)
	if err != nil {
		return nil, err
	}
	return a.Document(Frame(f)), nil
}

// Document is an answer that holds all sections as a whole page, in a frame that
// [Frame] made.
func (a *Answer) Document(f page.Frame) []byte {
	var body strings.Builder
	for _, s := range a.Sections {
		body.WriteString(s.HTML + "\n")
	}
	rest := *a
	rest.Sections = nil
	f.After += Data(&rest)
	return page.Document(a.Title, body.String(), f)
}

// Data is an answer inside of a page, where no text of it can end its element.
func Data(a *Answer) string {
	text, err := json.Marshal(a) // it writes < as \u003c
	if err != nil {
		panic(err) // texts and numbers only
	}
	return `<script type="application/json" id="` + dataID + `">` + string(text) + "</script>\n"
}

// The ids of our own that no section has.
const (
	dataID     = "page-answer"
	problemsID = "page-problems"
)

// problemSection says why the page stands as it was last.
func problemSection(problems []Problem) page.Section {
	var out strings.Builder
	out.WriteString(`<section id="` + problemsID + `" class="problems" role="alert"><h2>This cannot be worked as it stands</h2>`)
	for _, p := range problems {
		out.WriteString(`<div class="failure"><div><p>`)
		if p.Line > 0 {
			out.WriteString("<b>Line " + strconv.Itoa(p.Line) + "</b> <code>" + html.EscapeString(p.Text) + "</code></p><p>")
		}
		out.WriteString(html.EscapeString(strings.TrimSpace(p.Summary + " " + p.Hint)))
		out.WriteString("</p></div></div>")
	}
	out.WriteString(`<p class="remark">What it came to last stands below, if it was worked since this was opened.</p></section>`)
	return page.Section{ID: problemsID, HTML: out.String()}
}
