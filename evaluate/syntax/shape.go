package syntax

import (
	"path"
	"strings"

	"inkwing/evaluate/message"
)

// Dotted is a name or field as written, "store.capacitance"; false for any other
// expression.
func Dotted(e Expr) (string, bool) {
	switch x := e.(type) {
	case *Name:
		return x.Name, true
	case *Field:
		left, ok := Dotted(x.X)
		return left + "." + x.Name.Name, ok
	}
	return "", false
}

// Reference is a name or a field of one, written with dots; byte k of text stands
// at offset+k in the file.
func Reference(file, text string, offset int) Expr {
	var x Expr
	for from := 0; from <= len(text); {
		end := strings.IndexByte(text[from:], '.')
		if end < 0 {
			end = len(text) - from
		}
		part := Ident{At{message.Span{File: file, Start: offset + from, End: offset + from + end}}, Canonical(text[from : from+end])}
		if x == nil {
			x = &Name{part}
		} else {
			x = &Field{At{x.Place().To(part.Span)}, x, part}
		}
		from += end + 1
	}
	return x
}

// Plain reports whether an expression is a plain value: one that a builder would
// change, not one that is worked from others.
func Plain(e Expr) bool {
	switch x := e.(type) {
	case *Number, *Text, *Truth:
		return true
	case *Uncertain:
		return x.Value == nil || Plain(x.Value)
	case *Paren:
		return Plain(x.X)
	case *List:
		for _, item := range x.Items {
			if !Plain(item) {
				return false
			}
		}
		return true
	case *Index:
		_, named := Dotted(x.X)
		return named && Plain(x.Key)
	}
	return false
}

// Under is the name that a used file goes under: what as says, else its own
// without folder and ending.
func (x *Use) Under() string {
	if x.As.Name != "" {
		return x.As.Name
	}
	base := path.Base(x.Path.Value)
	return Canonical(strings.TrimSuffix(base, path.Ext(base)))
}

// StudyOf is the vary, adjust or tune of a statement, nil if it is none.
func StudyOf(s Statement) Expr {
	switch x := s.(type) {
	case *Study:
		return x.What
	case *Definition:
		if Sweeps(x.Value) != nil {
			return x.Value
		}
	}
	return nil
}

// Sweeps are the variables of a vary, adjust or tune; nil for what is no study.
func Sweeps(e Expr) []Sweep {
	switch x := e.(type) {
	case *Vary:
		return x.Over
	case *Adjust:
		return []Sweep{x.Over}
	case *Tune:
		return x.Over
	}
	return nil
}

// IsText reports whether an expression is a text that is written out.
func IsText(e Expr) bool {
	_, ok := e.(*Text)
	return ok
}

// IsKey reports whether a value can stand for a row's key or number.
func IsKey(e Expr) bool {
	n, number := e.(*Number)
	return IsText(e) || number && n.Unit == nil
}
