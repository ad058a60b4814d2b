// Package wire is what other programs read: reports of worksheets, comparisons,
// explanations and the manual, as JSON of a fixed form.
//
// [OfWorksheet], [OfTrial], [OfTrace], [OfStory] and [OfManual] make the forms,
// [Encode] writes one. It works nothing out and formats no number: texts and
// numbers are those of the report.
package wire

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"

	"inkwing/evaluate/message"
)

// Schema is the version of the forms. It rises when a field changes its meaning or
// goes; fields may be added without.
const Schema = 1

// Places turns spans into lines and columns, and the names of files into what the
// builder calls them.
type Places interface {
	// At is the line, the column and the column behind the end, all from 1.
	At(s message.Span) (line, column, end int)
	Display(file string) string
}

// Encode writes a form as JSON that no terminal can misread.
func Encode(w io.Writer, form any) error {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if err := e.Encode(form); err != nil {
		return err
	}
	if deepest(out.Bytes()) <= mostIndented {
		var indented bytes.Buffer
		if err := json.Indent(&indented, out.Bytes(), "", "  "); err != nil {
			return err
		}
		out = indented
	}
	_, err := io.WriteString(w, escapeControls(out.String()))
	return err
}

// mostIndented is how deep JSON is nested that is indented. How a quantity came about may
// be nested a thousand deep, and would be blanks for the most part.
const mostIndented = 200

// deepest is how deep JSON is nested.
func deepest(text []byte) (most int) {
	depth, quoted := 0, false
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case quoted && c == '\\':
			i++
		case c == '"':
			quoted = !quoted
		case !quoted && (c == '{' || c == '['):
			depth++
			most = max(most, depth)
		case !quoted && (c == '}' || c == ']'):
			depth--
		}
	}
	return most
}

// escapeControls writes what could mislead a terminal in JSON's own escapes: it
// can only stand inside of strings.
func escapeControls(text string) string {
	var out strings.Builder
	for _, r := range text {
		if r >= 0x7f && r <= 0x9f || message.Visible(string(r)) != string(r) && r > 0x9f {
			for _, half := range utf16.Encode([]rune{r}) {
				fmt.Fprintf(&out, "\\u%04x", half)
			}
			continue
		}
		out.WriteRune(r)
	}
	return out.String()
}
