package check

import (
	"strconv"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/units"
)

// resultType turns a result's shape into a type.
func (b *binding) resultType(s library.Shape) program.Type {
	switch s.Kind {
	case library.Integer:
		return program.Number
	case library.Bool:
		return program.Bool{}
	case library.Text:
		return program.Text{}
	case library.ListOf:
		return program.List{Elem: b.resultType(*s.Elem)}
	case library.RecordOf:
		return &program.Record{Fields: b.resultFields(s.Params)}
	case library.Table:
		return &program.Table{Columns: b.resultFields(s.Params)}
	}
	if s.Dim != "" {
		return difference(b.derived(s.Dim), s.Points)
	}
	return program.Quantity{Kind: s.Unit.Kind}
}

// declared is the unit that a field is shown in where its tag says more than a
// dimension does: a compound such as rpm/V or A/mm², a %, a °.
func declared(s library.Shape) units.Unit {
	compound := strings.ContainsAny(s.Unit.String(), "/·²³⁻")
	if s.Kind == library.Quantity && s.Dim == "" && (compound || s.Unit.Kind.Dim.IsNumber()) {
		return s.Unit
	}
	return units.Unit{}
}

// difference makes no point of a result whose shape is none, such as how far
// temperatures scatter.
func difference(t program.Type, points bool) program.Type {
	if q, ok := t.(program.Quantity); ok && !points {
		q.Point = false
		return q
	}
	return t
}

func (b *binding) resultFields(params []library.Param) []program.Field {
	fields := make([]program.Field, len(params))
	for i, p := range params {
		fields[i] = program.Field{Name: p.Name, Type: b.resultType(p.Shape), Headline: p.Headline, Symbol: p.Symbol}
		fields[i].Unit = declared(p.Shape)
	}
	return fields
}

// derived works out x^1/2, y/x, x*y from what x and y stand for.
func (b *binding) derived(dim string) program.Type {
	if q, ok := b.dims[dim]; ok {
		return q
	}
	if left, right, ok := strings.Cut(dim, "^"); ok {
		num, den := fraction(right)
		d, ok := b.dims[left].Dim.Pow(num, den)
		if !ok {
			b.fail(b.call.Span, "this makes a dimension that is out of reach", "")
			return nil
		}
		return program.Quantity{Kind: units.Kind{Dim: d}}
	}
	if left, right, ok := strings.Cut(dim, "/"); ok {
		return quotient(b.dims[left], b.dims[right])
	}
	if left, right, ok := strings.Cut(dim, "*"); ok {
		return product(b.dims[left], b.dims[right])
	}
	return program.Number
}

func fraction(text string) (num, den int) {
	a, b, two := strings.Cut(text, "/")
	num, _ = strconv.Atoi(a)
	den = 1
	if two {
		den, _ = strconv.Atoi(b)
	}
	return num, den
}
