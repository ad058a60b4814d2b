package rules

import (
	"cmp"
	"math"
	"reflect"
	"slices"
	"strings"

	"inkwing/evaluate/report"
	"inkwing/units"
)

// A Find is a row that a search picked. It holds on to no report.
type Find struct{ row }

// Pick gives the rows of a journal that a search is after.
func (s *Search) Pick(j *Journal) (finds []Find) {
	for _, r := range j.of(s.subject) {
		if j.machine.ask(s.where, r) == yes {
			finds = append(finds, Find{r})
		}
	}
	return finds
}

// Table sets out what was found, in the search's order.
func (s *Search) Table(finds []Find) report.Table {
	finds = s.sorted(finds)
	t := report.Table{Verb: "gather", Span: s.Span}
	for _, f := range s.columns {
		c := s.columnOf(f, finds)
		t.Columns = append(t.Columns, c.Column)
		for i, x := range finds {
			if i == len(t.Rows) {
				t.Rows, t.Values = append(t.Rows, nil), append(t.Values, nil)
			}
			shown, value := c.cell(x)
			t.Rows[i], t.Values[i] = append(t.Rows[i], shown), append(t.Values[i], value)
		}
		c.align(finds, t.Rows)
	}
	if len(finds) == 0 {
		t.Notes = []string{"no " + s.subject.Name + " of that kind was found"}
	}
	return t
}

// sorted puts finds in the order of a column; those alike stay as found.
func (s *Search) sorted(finds []Find) []Find {
	if s.sort == nil {
		return finds
	}
	finds = slices.Clone(finds)
	slices.SortStableFunc(finds, func(a, b Find) int {
		order := s.sort.compare(a, b)
		if s.falling {
			order = -order
		}
		return order
	})
	return finds
}

// compare orders two rows by a field; what is not known comes last of all.
func (f Field) compare(a, b Find) int {
	if f.measure == "interval" {
		f = Field{index: fieldNamed(a, "low").index}
	}
	switch x := f.of(a.row).(type) {
	case float64:
		return cmp.Compare(x, f.of(b.row).(float64))
	case string:
		return cmp.Compare(x, f.of(b.row).(string))
	case bool:
		return cmp.Compare(truthOrder(x), truthOrder(f.of(b.row).(bool)))
	case []string:
		return slices.Compare(x, f.of(b.row).([]string))
	}
	return 0
}

func truthOrder(b bool) int { return map[bool]int{true: 1}[b] }

// fieldNamed is a field of a row's own subject.
func fieldNamed(x Find, name string) Field {
	for _, s := range subjects() {
		if reflect.TypeOf(s.empty) == reflect.TypeOf(x.row) {
			f, _ := s.field(name)
			return f
		}
	}
	return Field{}
}

// A column writes one field of all rows.
type column struct {
	report.Column
	field Field
	unit  units.Unit // of all cells; zero where each has its own
	units []units.Unit
}

// columnOf finds a column's heading. Where all rows are of one kind, the unit
// stands there once.
func (s *Search) columnOf(f Field, finds []Find) column {
	c := column{field: f, units: s.units}
	c.Head, c.Number = f.Name, f.kind == reflect.Float64 || f.measure == "interval"
	c.Code = f.Name == "name" || f.Name == "id" || f.Name == "text" && s.subject.Name == "limit"
	switch {
	case f.measure == "value" || f.measure == "difference" || f.measure == "interval":
		c.unit = s.oneUnit(finds)
		if f.measure == "difference" {
			c.unit = c.unit.Difference()
		}
		if !c.unit.IsZero() {
			c.Head = withUnit(f.Name, c.unit)
			c.SIUnit = c.unit.Kind.Dim.SIUnit()
		}
	case f.Name == "headroom":
		c.unit = units.MustParse("%")
		c.Head, c.SIUnit = withUnit(f.Name, c.unit), "1"
	case f.kind == reflect.Float64:
		c.unit, c.SIUnit = units.MustParse("1"), "1"
	}
	return c
}

// align writes the last cells of the rows again, where they are sure numbers of one
// unit: those share their decimals.
func (c column) align(finds []Find, rows [][]string) {
	var at []int
	var numbers []float64
	for i, x := range finds {
		if v, ok := c.sure(x); ok {
			at, numbers = append(at, i), append(numbers, v)
		}
	}
	digits := 4
	if c.field.Name == "headroom" {
		digits = 2
	}
	for k, text := range c.unit.InColumn(numbers, digits) {
		row := rows[at[k]]
		row[len(row)-1] = text
	}
}

// sure is a row's number in a column whose heading has the unit; false where an
// interval decides how it is written, and for what is none.
func (c column) sure(x Find) (float64, bool) {
	q, isQuantity := x.row.(*quantityRow)
	if c.unit.IsZero() || isQuantity && q.Uncertain || c.field.measure == "interval" {
		return 0, false
	}
	v, isNumber := c.field.of(x.row).(float64)
	return v, isNumber && !math.IsNaN(v) && (c.field.measure == "" || x.base().kind != nil)
}

// withUnit is a heading as the language has it, as code.
func withUnit(name string, u units.Unit) string {
	return "`" + name + " [" + cmp.Or(u.String(), "1") + "]`"
}

// oneUnit is the unit for the measures of all rows, if they are of one kind.
func (s *Search) oneUnit(finds []Find) (u units.Unit) {
	for _, x := range finds {
		c := x.base()
		switch {
		case c.kind == nil:
		case u.IsZero():
			u = s.unitFor(x)
		case u.Kind.Dim != c.kind.Dim || !alikeKinds(u.Kind, *c.kind) || u.Kind.Point != c.kind.Point:
			return units.Unit{}
		}
	}
	return u
}

// unitFor is the unit for one row: one that was asked for, the builder's own, or
// one that fits.
func (s *Search) unitFor(x Find) units.Unit { return unitFor(x, s.units) }

func unitFor(x Find, asked []units.Unit) units.Unit {
	c := x.base()
	for _, u := range asked {
		if alikeKinds(u.Kind, *c.kind) && u.Kind.Point == c.kind.Point {
			return u
		}
	}
	if !c.own.IsZero() {
		return c.own
	}
	return units.Fitting(*c.kind, measureOf(x))
}

// measureOf is the main number of a row.
func measureOf(x Find) float64 {
	switch r := x.row.(type) {
	case *quantityRow:
		return r.Value
	case *limitRow:
		return r.Worked
	}
	return math.NaN()
}

// cell is what a row shows in a column, and its value.
func (c column) cell(x Find) (shown string, value any) {
	if c.field.measure == "interval" {
		return c.interval(x.row.(*quantityRow)), nil
	}
	switch v := c.field.of(x.row).(type) {
	case float64:
		return c.number(v, x)
	case bool:
		return map[bool]string{true: "yes", false: "no"}[v], v
	case []string:
		return strings.Join(v, ", "), strings.Join(v, ", ")
	case string:
		return v, v
	}
	return "", nil
}

func (c column) number(v float64, x Find) (string, any) {
	q, isQuantity := x.row.(*quantityRow)
	switch {
	case math.IsNaN(v) && isQuantity && c.field.Name == "value":
		return q.shown, q.said()
	case math.IsNaN(v), c.field.measure != "" && x.base().kind == nil:
		return "—", nil
	case c.unit.IsZero():
		if text := x.asShown(c.field, c.units); text != "" {
			return text, v
		}
		u := unitFor(x, c.units)
		if c.field.measure == "difference" {
			u = u.Difference()
		}
		return c.written(v, x, u), v
	}
	// The unit stands in the heading.
	text := c.written(v, x, c.unit)
	return strings.TrimSpace(strings.TrimSuffix(text, c.unit.String())), v
}

// asShown is a number as its journal shows it, where no other unit was asked for.
func (x Find) asShown(f Field, asked []units.Unit) string {
	r, ok := x.row.(*limitRow)
	switch {
	case !ok || len(asked) > 0:
	case f.Name == "worked":
		return r.shown[0]
	case f.Name == "allowed":
		return r.shown[1]
	}
	return ""
}

// written is a number in a unit, a value with as many digits as its uncertainty
// allows.
func (c column) written(v float64, x Find, u units.Unit) string {
	q, ok := x.row.(*quantityRow)
	switch {
	case ok && c.field.Name == "value" && q.Uncertain:
		return units.ShowBeside(v, q.Uncertainty, u)
	case ok && c.field.Name == "uncertainty":
		return units.ShowUncertainty(v, u)
	case c.field.Name == "headroom":
		return units.Show(v, u, 2)
	}
	return units.Show(v, u, 4)
}

// said is what a quantity that is no number came to.
func (q *quantityRow) said() any {
	switch {
	case q.Words != "":
		return q.Words
	case q.truth:
		return q.Holds
	}
	return nil
}

// interval writes from where to where a quantity goes; a dash where it is sure.
func (c column) interval(q *quantityRow) string {
	if q.kind == nil || !q.Uncertain {
		return "—"
	}
	u := c.unit
	if u.IsZero() {
		u = unitFor(Find{q}, c.units)
	}
	_, text, _ := strings.Cut(units.ShowInterval(q.Value, q.Low, q.High, u), "(")
	text = strings.TrimSuffix(text, ")")
	if !c.unit.IsZero() {
		text = strings.TrimSpace(strings.TrimSuffix(text, u.String()))
	}
	return text
}
