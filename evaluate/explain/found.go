package explain

import (
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/units"
)

// A found value is one of a call, with what its declaration says of it.
type found struct {
	value any
	kind  units.Kind
	shape library.Shape
}

// argument is that of a path. One of any dimension has that of what was given.
func argument(x *program.Call, args []any, path string) found {
	names := strings.Split(path, ".")
	for i, p := range x.Func.Params {
		if p.Name != names[0] {
			continue
		}
		if len(names) > 1 {
			return field(fieldsOf(p.Shape), args[i], names[1:])
		}
		f := found{args[i], p.Shape.Unit.Kind, p.Shape}
		if p.Shape.Elem != nil {
			f.kind = p.Shape.Elem.Unit.Kind
		}
		if x.Args[i] != nil {
			f.kind = kindOfType(x.Args[i].Type(), f.kind)
		}
		return f
	}
	return found{}
}

func fieldsOf(s library.Shape) []library.Param {
	if s.Elem != nil {
		return s.Elem.Params
	}
	return s.Params
}

// field is that of a record, or the column of a table.
func field(fields []library.Param, value any, names []string) found {
	for i, p := range fields {
		if p.Name != names[0] {
			continue
		}
		at, ok := cell(value, i)
		switch {
		case !ok:
			return found{}
		case len(names) > 1:
			return field(fieldsOf(p.Shape), at, names[1:])
		}
		kind := p.Shape.Unit.Kind
		if p.Shape.Elem != nil {
			kind = p.Shape.Elem.Unit.Kind
		}
		return found{at, kind, p.Shape}
	}
	return found{}
}

func cell(value any, i int) (any, bool) {
	switch v := value.(type) {
	case library.Record:
		return v[i], true
	case library.Rows:
		column := make(library.List, v.Len())
		for row := range column {
			column[row] = v.Cell(row, i)
		}
		return column, true
	case library.List:
		column := make(library.List, len(v))
		for row := range column {
			record, ok := v[row].(library.Record)
			if !ok {
				return nil, false
			}
			column[row] = record[i]
		}
		return column, true
	}
	return nil, false
}

func kindOf(x *program.Call) units.Kind { return kindOfType(x.Type(), units.Kind{}) }

// kindOfField is that of a record's field, where the declaration leaves it open.
func kindOfField(t program.Type, name string) units.Kind {
	record, ok := t.(*program.Record)
	if !ok || record.Index(name) < 0 {
		return units.Kind{}
	}
	return kindOfType(record.Fields[record.Index(name)].Type, units.Kind{})
}

func kindOfType(t program.Type, other units.Kind) units.Kind {
	switch t := t.(type) {
	case program.Quantity:
		return t.Kind
	case program.List:
		return kindOfType(t.Elem, other)
	}
	return other
}
