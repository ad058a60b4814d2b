package main

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A doc is a doc comment, taken apart at its labels.
type doc struct{ summary, text, formula, letters, validity, source, example string }

// or fills what d lacks of the labels from other.
func (d doc) or(other doc) doc {
	for _, f := range []struct {
		to   *string
		from string
	}{
		{&d.formula, other.formula}, {&d.letters, other.letters}, {&d.validity, other.validity},
		{&d.source, other.source}, {&d.example, other.example},
	} {
		if *f.to == "" {
			*f.to = f.from
		}
	}
	return d
}

// labels are what begins a line that starts another part.
var labels = []string{"Formula", "Letters", "Validity", "Source", "Example"}

// takeApart parts a comment's text at its labels. Its function is named in the
// language's way.
func takeApart(comment, goName, name string) doc {
	parts := split(comment)
	text := prose(parts[""])
	if rest, ok := strings.CutPrefix(text, goName+" "); ok && goName != "" {
		text = name + " " + rest
	}
	summary := firstSentence(text)
	return doc{
		summary:  summary,
		text:     strings.TrimSpace(text[len(summary):]),
		formula:  prose(parts["Formula"]),
		letters:  strings.TrimSuffix(prose(parts["Letters"]), "."),
		validity: prose(parts["Validity"]),
		source:   prose(parts["Source"]),
		example:  strings.Join(dedent(parts["Example"]), "\n"),
	}
}

// firstSentence is that of a text: up to a full stop before a capital (so
// not that of "e.g."), or to the end of its paragraph.
func firstSentence(text string) string {
	text, _, _ = strings.Cut(text, "\n")
	for i := range len(text) {
		rest, ok := strings.CutPrefix(text[i:], ". ")
		if next, _ := utf8.DecodeRuneInString(rest); ok && unicode.IsUpper(next) {
			return text[:i+1]
		}
	}
	return text
}

// split gathers the lines of each label; those before any have the label "".
func split(comment string) map[string][]string {
	parts := map[string][]string{}
	at := ""
	for line := range strings.Lines(comment) {
		line = strings.TrimRight(line, " \t\r\n")
		if label, rest := labelled(line); label != "" {
			at, line = label, rest
		}
		parts[at] = append(parts[at], line)
	}
	return parts
}

// labelled parts "Formula: t = C·V/I" at its label; the plural is read too.
func labelled(line string) (label, rest string) {
	head, rest, ok := strings.Cut(line, ":")
	if !ok {
		return "", ""
	}
	for _, l := range labels {
		if head == l || head == l+"s" || l == "Formula" && head == "Formulae" {
			return l, strings.TrimSpace(rest)
		}
	}
	return "", ""
}

// prose joins the lines of each paragraph; indented lines and items of a list
// stay lines of their own.
func prose(lines []string) string {
	var out strings.Builder
	for i, line := range lines {
		plain := strings.TrimSpace(line)
		switch {
		case plain == "" || out.Len() == 0:
		case lines[i-1] == "":
			out.WriteString("\n\n")
		case indented(line) || indented(lines[i-1]):
			out.WriteString("\n")
		default:
			out.WriteString(" ")
		}
		out.WriteString(plain)
	}
	return out.String()
}

func indented(line string) bool { return line != strings.TrimLeft(line, " \t") }

// dedent takes out the first line's indent and the blank lines around.
func dedent(lines []string) []string {
	for len(lines) > 0 && lines[0] == "" {
		lines = lines[1:]
	}
	for len(lines) > 0 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	if len(lines) == 0 {
		return nil
	}
	indent := lines[0][:len(lines[0])-len(strings.TrimLeft(lines[0], " \t"))]
	out := make([]string, len(lines))
	for i, line := range lines {
		out[i] = strings.TrimPrefix(line, indent)
	}
	return out
}
