package program

import (
	"slices"
	"testing"

	"inkwing/units"
)

func quantity(unit string) Quantity { return Quantity{Kind: units.MustParse(unit).Kind} }

// TestSame tells which types can stand for each other: of one dimension and kind
// of scale, neutral for marked but no rotation for a rate, records by their fields.
func TestSame(t *testing.T) {
	volt, ampere := quantity("V"), quantity("A")
	record := func(name string, of Type) Type { return &Record{Fields: []Field{{Name: name, Type: of}}} }
	for _, c := range []struct {
		a, b Type
		want bool
	}{
		{volt, volt, true}, {volt, quantity("mV"), true}, {volt, ampere, false}, {volt, Text{}, false}, {Bool{}, Bool{}, true}, {Bool{}, Text{}, false},
		{quantity("°C"), quantity("K"), false}, {quantity("rpm"), quantity("Hz"), false}, {quantity("rpm"), Quantity{Kind: units.Kind{Dim: quantity("Hz").Dim}}, true},
		{List{Elem: volt}, List{Elem: volt}, true}, {List{Elem: volt}, List{Elem: ampere}, false}, {List{Elem: volt}, volt, false},
		{record("U", volt), record("U", volt), true}, {record("U", volt), record("I", volt), false}, {record("U", volt), record("U", ampere), false},
		{record("U", volt), &Table{Columns: []Field{{Name: "U", Type: volt}}}, false},
	} {
		if got := Same(c.a, c.b); got != c.want {
			t.Errorf("%v for %v: %v", c.b, c.a, got)
		}
	}
}

// TestShown names a definition of a used sheet by the first of the names that the
// sheet goes under, in any run alike.
func TestShown(t *testing.T) {
	used, other := &Sheet{Name: "parts.md"}, &Sheet{Name: "other.md"}
	main := &Sheet{}
	for _, name := range []string{"spares", "parts", "z"} {
		main.Use(name, used)
	}
	if got := (&Def{Sheet: used, Name: "n"}).Shown(main); got != "parts.n" {
		t.Fatalf("%s", got)
	}
	for _, d := range []*Def{{Sheet: main, Name: "n"}, {Sheet: other, Name: "n"}} {
		if got := d.Shown(main); got != "n" {
			t.Errorf("%s", got)
		}
	}
}

// TestRefs lists what a node names, the deviations of uncertain values too.
func TestRefs(t *testing.T) {
	def := func(id int) *Def { return &Def{ID: id} }
	n := &Op{Args: []Node{
		&Uncertain{X: &Ref{Def: def(1)}, Deviation: def(2)},
		&UncertainCall{X: &Call{Args: []Node{nil, &Ref{Def: def(3)}}}, Deviations: []*Def{def(4), def(5)}},
		&Vary{Over: []Variable{{From: &Ref{Def: def(6)}, To: &Const{}}}, Outputs: []Output{{Node: &Ref{Def: def(7)}}}},
	}}
	got := Refs(n)
	slices.Sort(got)
	if !slices.Equal(got, []int{1, 2, 3, 4, 5, 6, 7}) {
		t.Errorf("%v", got)
	}
}

// TestWith puts values in place of some cells, and leaves the table as it was.
func TestWith(t *testing.T) {
	rows := &Rows{Cells: [][]any{{"a", 1.0}, {"b", 2.0}}, Keys: map[string]int{"a": 0, "b": 1}}
	moved := rows.With(map[UncertainCell]float64{{Row: 1, Column: 1}: 2.5})
	if moved.Cell(1, 1) != 2.5 || moved.Cell(0, 1) != 1.0 || rows.Cell(1, 1) != 2.0 {
		t.Errorf("%v, %v", moved.Cells, rows.Cells)
	}
	if i, ok := moved.Row("b"); i != 1 || !ok {
		t.Errorf("row %d, %v", i, ok)
	}
}
