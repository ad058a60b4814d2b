package manual

import (
	"slices"
	"strings"
	"unicode"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// Search finds the entries in which words begin with all of those asked for: by
// their names and summaries and, where none has them there, by all that is said of
// them and of what they take and give.
func Search(text string) *Entries {
	asked := tokens(text)
	short := func(word string) bool { return len(word) < leastWord }
	if len(asked) == 0 || slices.ContainsFunc(asked, short) {
		return &Entries{}
	}
	e := matching(asked, nearTexts)
	if wide := matching(asked, allTexts); e.IsEmpty() {
		return wide
	} else if len(e.Functions) == 0 {
		e.Functions, e.Words = wide.Functions, wide.Words
	}
	return e
}

// texts are what an entry is searched by.
type texts struct {
	function func(*library.Function) []string
	caution  func(library.Caution) []string
	word     func(syntax.Word) []string
}

var nearTexts = texts{
	function: func(f *library.Function) []string { return []string{f.Name, f.Doc.Summary} },
	caution:  func(c library.Caution) []string { return []string{c.ID, model.Sketch(c.Summary)} },
	word:     func(w syntax.Word) []string { return append(w.Also, w.Name) },
}

var allTexts = texts{
	function: func(f *library.Function) []string {
		list := []string{f.Doc.Text, f.Doc.Formula, f.Doc.Validity}
		for _, params := range [][]library.Param{f.Params, f.Result.Params} {
			for _, p := range params {
				list = append(list, p.Name, p.Help)
			}
		}
		return list
	},
	caution: func(c library.Caution) []string { return []string{model.Sketch(c.Why), model.Sketch(c.Hint)} },
	word:    func(w syntax.Word) []string { return []string{w.Summary, w.Form} },
}

func matching(asked []string, by texts) *Entries {
	e := &Entries{}
	for _, f := range library.All() {
		if holds(asked, by.function(f)) {
			e.Functions = append(e.Functions, f)
		}
	}
	for _, c := range library.Constants() {
		if holds(asked, []string{c.Name, c.Help}) {
			e.Constants = append(e.Constants, c)
		}
	}
	for _, u := range units.All() {
		if holds(asked, append([]string{u.Name, u.Meaning, unitQuantity(u)}, u.Aliases...)) {
			e.Units = append(e.Units, u)
		}
	}
	for _, c := range library.Cautions() {
		if holds(asked, by.caution(c)) {
			e.Cautions = append(e.Cautions, c)
		}
	}
	for _, w := range syntax.Words() {
		if holds(asked, by.word(w)) {
			e.Words = append(e.Words, w)
		}
	}
	return e
}

// unitQuantity is what a unit is a unit of: "energy".
func unitQuantity(u units.Named) string { return u.Unit.Kind.Dim.Name() }

// leastWord is how many letters find the words that begin with them: fewer would find
// nearly all.
const leastWord = 3

// holds reports whether each word asked for begins one of the texts' words.
func holds(asked, texts []string) bool {
	words := tokens(strings.Join(texts, " "))
	for _, a := range asked {
		found := false
		for _, w := range words {
			found = found || strings.HasPrefix(w, a)
		}
		if !found {
			return false
		}
	}
	return true
}

// tokens are the words of a text in small letters; an underscore and a hyphen part
// words.
func tokens(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
