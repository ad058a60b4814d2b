package rules

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// A Rule is what every journal is to keep.
type Rule struct {
	Text   string // on one line, without its advice
	Advice string
	Span   message.Span
	quantifier
	subject Subject
	where   *predicate // nil for all rows
	demand  *predicate // nil for none
}

// A quantifier says of how many rows a rule speaks.
type quantifier string

const (
	every quantifier = "every"
	some  quantifier = "some"
	none  quantifier = "no"
)

var quantifiers = []string{string(every), string(some), string(none)}

// ReadPage reads the rules of a page's blocks, and says what is wrong with those
// that cannot be read.
func ReadPage(file string, blocks [][]syntax.Line) (rules []*Rule, problems []message.Diagnostic) {
	for _, lines := range blocks {
		for _, s := range statements(file, lines) {
			rule, wrong := readRule(s)
			if wrong != nil {
				problems = append(problems, *wrong)
				continue
			}
			rules = append(rules, rule)
		}
	}
	return rules, problems
}

// A statement is a text and the lines of words below it.
type statement struct {
	text
	advice string
	below  []text // further lines, if the statement has them
}

// statements takes a block apart: each begins at the margin, which is where the
// first line begins, and goes on with what is indented more.
func statements(file string, lines []syntax.Line) (list []statement) {
	margin := -1
	for _, l := range lines {
		t := lineText(file, l)
		if len(t.trim().runes) == 0 {
			continue
		}
		indent := len(l.Text) - len(strings.TrimLeft(l.Text, " \t"))
		if margin < 0 {
			margin = indent
		}
		if indent <= margin || len(list) == 0 {
			list = append(list, statement{text: t.trim()})
			continue
		}
		list[len(list)-1].add(t.trim())
	}
	return list
}

// add puts an indented line to its statement: advice if it is nothing but a text.
func (s *statement) add(t text) {
	if t.runes[0] == '"' && closingQuote(t.runes, 0) == len(t.runes)-1 && s.advice == "" {
		s.advice = unquote(string(t.runes))
		return
	}
	s.below = append(s.below, t)
}

// joined is the statement with its further lines, as one text.
func (s statement) joined() text {
	whole := s.text
	for _, t := range s.below {
		end := whole.at[len(whole.runes)]
		whole = text{whole.file, append(append(slices.Clone(whole.runes), '\n'), t.runes...),
			append(append(slices.Clone(whole.at[:len(whole.runes)]), end), t.at...)}
	}
	return whole
}

func unquote(s string) string {
	return strings.NewReplacer(`\"`, `"`, `\\`, `\`).Replace(s[1 : len(s)-1])
}

// lineText is a line without its remark.
func lineText(file string, l syntax.Line) text {
	t := text{file: file}
	for i, r := range l.Text {
		t.runes, t.at = append(t.runes, r), append(t.at, l.Offset+i)
	}
	t.at = append(t.at, l.Offset+len(l.Text))
	for i := 0; i < len(t.runes); i++ {
		switch t.runes[i] {
		case '"':
			if i = closingQuote(t.runes, i); i < 0 {
				return t
			}
		case '#':
			return t.cut(0, i)
		}
	}
	return t
}

// readRule reads a quantifier, a subject, and what is asked of it.
func readRule(s statement) (*Rule, *message.Diagnostic) {
	whole := s.joined()
	first, rest := whole.word()
	rule := &Rule{Text: whole.String(), Advice: s.advice, Span: whole.span(0, len(whole.runes)), quantifier: quantifier(first.String())}
	if !slices.Contains(quantifiers, first.String()) {
		d := &message.Diagnostic{Span: first.span(0, max(1, len(first.runes))), Summary: "a rule begins with every, some or no",
			Hint: "such as `every limit: headroom >= 5 %`"}
		if near := message.Nearest(first.String(), quantifiers); near != "" {
			d.Hint = "did you mean `" + near + "`?"
		}
		return nil, d
	}
	var wrong *message.Diagnostic
	if rule.subject, rest, wrong = readSubject(rest); wrong != nil {
		return nil, wrong
	}
	if wrong = rule.conditions(rest); wrong != nil {
		return nil, wrong
	}
	return rule, nil
}

// readSubject reads what kind of row is meant.
func readSubject(t text) (Subject, text, *message.Diagnostic) {
	word, rest := t.word()
	if s, ok := subject(word.String()); ok {
		return s, rest, nil
	}
	var names []string
	for _, s := range subjects() {
		names = append(names, s.Name)
	}
	d := &message.Diagnostic{Span: word.span(0, max(1, len(word.runes))), Hint: "it is one of " + strings.Join(names, ", ")}
	d.Summary = "`" + word.String() + "` is nothing that can be looked for"
	if len(word.runes) == 0 {
		d.Summary = "here it is missing what is looked for"
	}
	if near := message.Nearest(word.String(), names); near != "" {
		d.Hint = "did you mean `" + near + "`? " + d.Hint
	}
	return Subject{}, t, d
}

// conditions reads `where …`, and behind a colon what is demanded.
func (r *Rule) conditions(t text) (wrong *message.Diagnostic) {
	head, demand, colon := atColon(t)
	if r.where, wrong = readWhere(head, r.subject); wrong != nil {
		return wrong
	}
	switch {
	case colon:
		r.demand, wrong = compile(demand, r.subject)
	case r.quantifier == every:
		end := t.span(len(t.runes), len(t.runes))
		wrong = &message.Diagnostic{Span: end, Summary: "`every` wants a colon and what is demanded",
			Hint: "such as `every limit: headroom >= 5 %`; " + r.subject.tells()}
	}
	return wrong
}

// readWhere reads `where` and a condition, if they are there.
func readWhere(t text, s Subject) (*predicate, *message.Diagnostic) {
	t = t.trim()
	if len(t.runes) == 0 {
		return nil, nil
	}
	word, rest := t.word()
	if word.String() != "where" {
		return nil, &message.Diagnostic{Span: t.span(0, max(1, len(word.runes))), Summary: "behind `" + s.Name + "` stands `where`, or a colon",
			Hint: "write `" + s.Name + " where …`; " + s.tells()}
	}
	return compile(rest, s)
}

// atColon cuts a text at its first colon outside of texts.
func atColon(t text) (before, after text, found bool) {
	for i := 0; i < len(t.runes); i++ {
		switch t.runes[i] {
		case '"':
			if i = closingQuote(t.runes, i); i < 0 {
				return t, text{}, false
			}
		case ':':
			return t.cut(0, i), t.cut(i+1, len(t.runes)), true
		}
	}
	return t, text{}, false
}
