package rules

import (
	"errors"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// A Search picks rows out of journals and says how to show them.
type Search struct {
	Text    string
	Span    message.Span
	From    []Source // where journals are; none for wherever the search is asked
	Title   string   // of a chart; empty for none
	At      message.Span
	subject Subject
	where   *predicate
	columns []Field
	usual   bool // nobody named the columns
	sort    *Field
	falling bool
	units   []units.Unit
}

// A Source is a path of a journal, or of a folder of them.
type Source struct {
	Path string
	Span message.Span
}

// ReadSearches reads the searches of a block, and says what is wrong with those
// that cannot be read.
func ReadSearches(file string, lines []syntax.Line) (list []*Search, problems []message.Diagnostic) {
	for _, s := range statements(file, lines) {
		search, wrong := readSearch(s)
		if wrong != nil {
			problems = append(problems, *wrong)
			continue
		}
		list = append(list, search)
	}
	return list, problems
}

// An option is a line below a search.
type option func(*Search, text) *message.Diagnostic

func optionOf(word string) option {
	return map[string]option{"from": (*Search).readFrom, "columns": (*Search).readColumns, "sort": (*Search).readSort,
		"units": (*Search).readUnits, "chart": (*Search).readChart}[word]
}

func readSearch(s statement) (*Search, *message.Diagnostic) {
	type line struct {
		option
		rest text
	}
	var options []line
	head := statement{text: s.text}
	for _, t := range s.below {
		word, rest := t.word()
		if o := optionOf(word.String()); o != nil {
			options = append(options, line{o, rest})
		} else {
			head.below = append(head.below, t)
		}
	}
	whole := head.joined()
	x := &Search{Text: whole.String(), Span: whole.span(0, len(whole.runes))}
	subject, rest, wrong := readSubject(whole)
	if wrong != nil {
		return nil, wrong
	}
	x.subject = subject
	if x.where, wrong = readWhere(rest, subject); wrong != nil {
		wrong.Hint = strings.TrimSuffix(wrong.Hint, ", or a colon")
		return nil, wrong
	}
	for _, o := range options {
		if wrong := o.option(x, o.rest); wrong != nil {
			return nil, wrong
		}
	}
	if x.usual = len(x.columns) == 0; x.usual {
		x.columns = slices.DeleteFunc(subject.usual(), func(f Field) bool { return f.Name == "line" })
	}
	return x, nil
}

// ShowLines has a table say on which lines its rows stand, if no columns were
// named. They move with every word that is written above them: no page should
// hold them.
func (s *Search) ShowLines() {
	if s.usual {
		s.columns = s.subject.usual()
	}
}

// items cuts a line at its commas outside of texts.
func items(t text) (list []text) {
	start := 0
	for i := 0; i < len(t.runes); i++ {
		switch t.runes[i] {
		case '"':
			if end := closingQuote(t.runes, i); end > 0 {
				i = end
			}
		case ',':
			list = append(list, t.cut(start, i).trim())
			start = i + 1
		}
	}
	return append(list, t.cut(start, len(t.runes)).trim())
}

func isQuoted(t text) bool {
	return len(t.runes) > 1 && t.runes[0] == '"' && closingQuote(t.runes, 0) == len(t.runes)-1
}

func (t text) wrong(summary, hint string) *message.Diagnostic {
	return &message.Diagnostic{Span: t.span(0, len(t.runes)), Summary: summary, Hint: hint}
}

func (s *Search) readFrom(t text) *message.Diagnostic {
	for _, item := range items(t) {
		if !isQuoted(item) {
			return item.wrong("a folder or a journal stands in quotes", `write from "journals"`)
		}
		s.From = append(s.From, Source{unquote(string(item.runes)), item.span(0, len(item.runes))})
	}
	return nil
}

func (s *Search) readColumns(t text) *message.Diagnostic {
	for _, item := range items(t) {
		f, wrong := s.column(item)
		if wrong != nil {
			return wrong
		}
		s.columns = append(s.columns, f)
	}
	return nil
}

// column is a field, or one of those that only a table has.
func (s *Search) column(t text) (Field, *message.Diagnostic) {
	all := s.subject.shownFields()
	var names []string
	for _, f := range all {
		if f.Name == t.String() {
			return f, nil
		}
		names = append(names, f.Name)
	}
	d := t.wrong("`"+t.String()+"` is no column of "+s.subject.article(), "it has "+strings.Join(names, ", "))
	if near := message.Nearest(t.String(), names); near != "" {
		d.Hint = "did you mean `" + near + "`? " + d.Hint
	}
	return Field{}, d
}

func (s *Search) readSort(t text) *message.Diagnostic {
	name := t
	if len(t.runes) > 0 && t.runes[0] == '-' {
		s.falling, name = true, t.cut(1, len(t.runes)).trim()
	}
	f, wrong := s.column(name)
	s.sort = &f
	return wrong
}

func (s *Search) readUnits(t text) *message.Diagnostic {
	for _, item := range items(t) {
		u, err := units.Parse(item.String())
		var bad *units.Error
		if errors.As(err, &bad) {
			return item.wrong(bad.Summary, bad.Hint)
		}
		s.units = append(s.units, u)
	}
	return nil
}

func (s *Search) readChart(t text) *message.Diagnostic {
	if !isQuoted(t) {
		return t.wrong("a chart's title stands in quotes", `write chart "Charging times"`)
	}
	s.Title, s.At = unquote(string(t.runes)), t.span(0, len(t.runes))
	if !slices.ContainsFunc(s.columns, func(f Field) bool { return f.kind.String() == "float64" }) && len(s.columns) > 0 {
		return t.wrong("no column of this search is a number that could be drawn", "name one in its columns, such as value")
	}
	return nil
}
