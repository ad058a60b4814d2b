package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// ParseValue reads the number of a table's cell: 12, 47 mF, 10 V ± 0.1 V,
// 50 F within 20 %, within 45 F to 65 F or (12.50 ± 0.25) F. Byte k of text
// stands at offset+k in the file. The expression is a *Number or an *Uncertain.
func ParseValue(file, text string, offset int) (Expr, *message.Diagnostic) {
	line := Line{Text: text, Offset: offset}
	if len(text) > MaxStatement || strings.TrimSpace(text) == "" {
		d := diagnose(spanIn(file, line, 0, len(text)), "a number is wanted in this cell", "")
		return nil, &d
	}
	s := scan(file, []Line{line}, make([]lexer.Token, 0, 8))
	if len(s.problems) > 0 {
		return nil, &s.problems[0]
	}
	x, err := parseCell(s)
	if err != nil {
		d := inCell(err.(*problem).Diagnostic)
		return nil, &d
	}
	return x, nil
}

const cellForm = "a cell holds one number with its unit: `47 mF`, `10 V ± 0.1 V`"

// inCell words a message about a statement for a cell, which has no lines.
func inCell(d message.Diagnostic) message.Diagnostic {
	d.Summary = strings.Replace(d.Summary, "the statement", "the cell", 1)
	if d.Hint == "" || strings.Contains(d.Hint, "indent") {
		d.Hint = cellForm
	}
	return d
}

func parseCell(s *scanner) (Expr, error) {
	if err := checkBrackets(s.list); err != nil {
		return nil, err
	}
	lex, err := lexer.Upgrade(&s.tokens)
	if err != nil {
		return nil, fail(spanOf(&s.list[0]), "this cell cannot be read", "")
	}
	c := precedenceParser{lex: lex}
	x, err := c.expression()
	if err != nil {
		return nil, err
	}
	if t := c.peek(); !t.EOF() {
		return nil, fail(spanOf(t), message.Quote(t.Value)+" cannot stand in a cell", cellForm)
	}
	return x, onlyNumber(x)
}

// onlyNumber refuses what is worked from something.
func onlyNumber(x Expr) error {
	switch n := x.(type) {
	case *Number:
		return nil
	case *Uncertain:
		if _, ok := n.Value.(*Number); ok || n.Value == nil {
			return nil
		}
	}
	return fail(x.Place(), "a number is wanted in this cell", "work the value in a block; a cell holds one number with its unit")
}

// ParsePlain reads the right side of a definition by itself, as somebody types
// it for a trial. Byte k of text stands at offset+k in the file.
func ParsePlain(file, text string, offset int) (Expr, *message.Diagnostic) {
	const lead = "x="
	tree, problems := Parse(file, []Block{{Lines: []Line{{Text: lead + text, Offset: offset - len(lead)}}}})
	if len(problems) > 0 {
		return nil, &problems[0]
	}
	x := tree.Statements[0].(*Definition)
	if x.Note != "" {
		d := diagnose(x.Span, "a note has no place here", "leave # and what follows out")
		return nil, &d
	}
	return x.Value, nil
}
