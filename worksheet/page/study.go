package page

import (
	"strings"

	"inkwing/evaluate/syntax"
	"inkwing/worksheet/formula"
)

// study says in words what was sought; empty for what is no study.
func (l *lineWriter) study(x syntax.Expr) string {
	switch x := x.(type) {
	case *syntax.Adjust:
		return "where " + l.inLine(x.Until) + ", " + l.sweep(x.Over)
	case *syntax.Tune:
		end := "least"
		if x.Most {
			end = "greatest"
		}
		return "where " + l.inLine(x.Of) + " is " + end + ", " + l.sweeps(x.Over)
	case *syntax.Vary:
		return "worked again, " + l.sweeps(x.Over)
	}
	return ""
}

func (l *lineWriter) sweeps(list []syntax.Sweep) string {
	parts := make([]string, len(list))
	for i, s := range list {
		parts[i] = l.sweep(s)
	}
	return strings.Join(parts, " and ")
}

// sweep is what a variable runs over.
func (l *lineWriter) sweep(s syntax.Sweep) string {
	text := l.inLine(s.Of)
	if s.In != nil {
		return text + " each of " + l.inLine(s.In)
	}
	text += " from " + l.inLine(s.From) + " to " + l.inLine(s.To)
	if s.By != nil {
		text += " in steps of " + l.inLine(s.By)
	}
	return text
}

// inLine is an expression in the middle of a text.
func (l *lineWriter) inLine(x syntax.Expr) string {
	return formula.Math(l.notation(false).Of(x))
}
