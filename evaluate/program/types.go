package program

import (
	"strings"

	"inkwing/units"
)

// A Type is what a value is, beside its number: Quantity, Bool, Text, List,
// *Record or *Table.
type Type interface{ String() string }

type (
	// Quantity is a number with a dimension.
	Quantity struct {
		units.Kind
		// Pi says that the number was made with pi: a product with it may turn a
		// rate into a rotation, so it loses the mark.
		Pi bool
	}
	// Bool is yes or no.
	Bool struct{}
	// Text is a text.
	Text struct{}
	// List is values of one type.
	List struct{ Elem Type }
	// Record is named fields. It is structural: only names and types count.
	Record struct{ Fields []Field }
	// Table is rows of named columns.
	Table struct {
		Columns []Field
		Keyed   bool // the first column is text and names the rows
	}
)

// A Field is one field of a record or one column of a table.
type Field struct {
	Name     string
	Type     Type
	Headline int
	Symbol   string // the letter that the trade has for it; empty for none
	// Unit is what a pure number is shown in, such as % or °; else the zero
	// unit, and a fitting one is chosen.
	Unit units.Unit
}

// String names the type in the builder's terms, with its article.
func (q Quantity) String() string { return q.Kind.String() }

// String names the type in the builder's terms, with its article.
func (Bool) String() string { return "a truth (yes or no)" }

// String names the type in the builder's terms, with its article.
func (Text) String() string { return "a text" }

// String names the type in the builder's terms, with its article.
func (l List) String() string {
	if q, ok := l.Elem.(Quantity); ok {
		return "a list, each " + q.String()
	}
	return "a list"
}

// String names the type in the builder's terms, with its article.
func (r *Record) String() string { return "a record (" + FieldNames(r.Fields) + ")" }

// String names the type in the builder's terms, with its article.
func (t *Table) String() string { return "a table (" + FieldNames(t.Columns) + ")" }

// MaxNames bounds how many names a message lists.
const MaxNames = 6

// FieldNames lists the first names of fields, for a message.
func FieldNames(fields []Field) string {
	names := make([]string, 0, len(fields))
	for _, f := range fields {
		if len(names) == MaxNames {
			names = append(names, "…")
			break
		}
		names = append(names, f.Name)
	}
	return strings.Join(names, ", ")
}

// IndexOf is the place of a name among fields, -1 for none.
func IndexOf(fields []Field, name string) int {
	for i, f := range fields {
		if f.Name == name {
			return i
		}
	}
	return -1
}

// Number is the type of a pure number.
var Number = Quantity{}

// Element is a list's element type, and whether t is a list; else t itself.
func Element(t Type) (Type, bool) {
	if l, ok := t.(List); ok {
		return l.Elem, true
	}
	return t, false
}

// Same reports whether a value of type b can stand for one of type a: of equal
// dimension, and with all that a has where a is a record.
func Same(a, b Type) bool {
	switch a := a.(type) {
	case Quantity:
		b, ok := b.(Quantity)
		return ok && a.Dim == b.Dim && a.Point == b.Point && MarksAgree(a.Mark, b.Mark)
	case List:
		b, ok := b.(List)
		return ok && Same(a.Elem, b.Elem)
	case *Record:
		b, ok := b.(*Record)
		return ok && sameFields(a.Fields, b.Fields)
	case *Table:
		b, ok := b.(*Table)
		return ok && sameFields(a.Columns, b.Columns)
	}
	return a == b
}

func sameFields(a, b []Field) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Name != b[i].Name || !Same(a[i].Type, b[i].Type) {
			return false
		}
	}
	return true
}

// MarksAgree is false only for a rotation against a rate.
func MarksAgree(a, b units.Mark) bool {
	return a == b || a == units.Neutral || b == units.Neutral
}

// Either is the mark of two that agree.
func Either(a, b units.Mark) units.Mark {
	if a == units.Neutral {
		return b
	}
	return a
}

// Index is a field's place in the record, -1 for none.
func (r *Record) Index(name string) int { return IndexOf(r.Fields, name) }
