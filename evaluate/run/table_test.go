package run

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"inkwing/evaluate/check"
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// cellsTable is a data table: a key, a voltage, and a cell that is empty.
func cellsTable() *syntax.Table {
	t := &syntax.Table{Name: syntax.Ident{Name: "t"}}
	start := 50_000_000
	for i, line := range []string{"name | V [V]", "a | 5", "b | 6 ± 0.2", "c | "} {
		var row []syntax.Cell
		for _, text := range strings.Split(line, " | ") {
			c := syntax.Cell{Text: text}
			c.Span.File, c.Span.Start, c.Span.End = "notes.md", start, start+len(text)
			start += 100
			row = append(row, c)
		}
		if i == 0 {
			t.Head = row
			continue
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func tableMachine(t *testing.T, text string) (*Machine, *program.Program) {
	t.Helper()
	tree, problems := syntax.Parse("notes.md", []syntax.Block{{Lines: []syntax.Line{{Text: text}}}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p := check.Check(t.Context(), check.Input{Name: "notes.md", Tree: tree, Tables: []*syntax.Table{cellsTable()}}, nil)
	for _, d := range p.Problems {
		t.Fatalf("%s | %s", d.Summary, d.Hint)
	}
	m := New(t.Context(), p, nil)
	m.Run()
	return m, p
}

// TestTables takes rows by key and by number, cells and columns: an empty cell is
// missed only by what needs it.
func TestTables(t *testing.T) {
	for text, want := range map[string]any{
		`a = t["b"].V`: 6.0,
		`a = t[1].V`:   5.0,
		`a = t.V[2]`:   6.0,
		`a = t["a"]`:   library.Record{"a", 5.0},
		`a = t.name`:   library.List{"a", "b", "c"},
		`a = t["c"]`:   nil, // a row with an empty cell is one all the same
		`a = t["c"].V`: "`V` of `c` is not known",
		`a = t.V[3]`:   "`V` of `c` is not known",
		`a = max(t.V)`: "`V` of `c` is not known",
		`a = t.V[4]`:   "there is no number 4, they go from 1 to 3",
	} {
		m, p := tableMachine(t, text)
		a := p.Main.Names["a"]
		summary, fails := want.(string)
		switch f := m.Fault(a); {
		case fails && (f == nil || f.Summary != summary):
			t.Errorf("%s: %v", text, f)
		case !fails && f != nil, !fails && want != nil && !reflect.DeepEqual(m.Value(a), want):
			t.Errorf("%s: %v, %v", text, m.Value(a), f)
		}
	}
}

// TestMovedCell moves a cell about its nominal, in a table of its own.
func TestMovedCell(t *testing.T) {
	m, p := tableMachine(t, "a = t.V[2]")
	table, a := p.Main.Names["t"], p.Main.Names["a"]
	by := table.Body.(*program.Data).Rows.Uncertain[0].Value.Deviation
	part := m.Around([]*program.Def{by}, []int{a.ID}, 0)
	part.Evaluate([]any{0.5})
	if part.Value(a) != 6.5 || m.Value(a) != 6.0 || table.Rows().Cell(1, 1) != 6.0 {
		t.Errorf("%v, %v, %v", part.Value(a), m.Value(a), table.Rows().Cell(1, 1))
	}
}

// fitted is a record or table put into the shape of a parameter "p" that wants a
// voltage above zero, a part of one with a default, and what may be left out.
func fitted(t *testing.T, value any, rows bool) (any, *Fault) {
	t.Helper()
	positive := library.Range{HasLow: true, LowOpen: true}
	params := []library.Param{
		{Name: "V", Shape: library.Shape{Unit: units.MustParse("V")}, Range: positive}, {Name: "share", Default: 0.5}, {Name: "note", Optional: true},
		{Name: "inner", Shape: library.Shape{Kind: library.RecordOf}},
	}
	picks := []program.Pick{
		{Param: &params[0], Index: 1}, {Param: &params[1], Index: -1, Default: 0.5}, {Param: &params[2], Index: 2},
		{Param: &params[3], Index: 3, Nested: []program.Pick{{Param: &params[0], Index: 0}}},
	}
	m, p := machine(t, "a = 1")
	p.Defs[0].Body = &program.Value{Node: &program.Fit{Typed: at(3), X: &program.Const{Typed: at(3), Value: value}, Picks: picks, Rows: rows}}
	m.Run()
	return m.Value(p.Defs[0]), m.Fault(p.Defs[0])
}

// TestFit picks the fields that a parameter wants: the default where one is not
// there, nothing where an empty cell may be left out, and a fault at what is out
// of its range, with the way to it.
func TestFit(t *testing.T) {
	empty := program.Unknown{What: "`V` of `c`"}
	for _, c := range []struct {
		given   library.Record
		want    library.Record
		summary string
	}{
		{library.Record{"x", 3.0, "n", library.Record{4.0}}, library.Record{3.0, 0.5, "n", library.Record{4.0}}, ""},
		{library.Record{"x", 3.0, empty, library.Record{4.0}}, library.Record{3.0, 0.5, nil, library.Record{4.0}}, ""},
		{library.Record{"x", empty, "n", library.Record{4.0}}, nil, "`V` of `c` is not known"},
		{library.Record{"x", nil, "n", library.Record{4.0}}, nil, "`V` is not known here"},
		{library.Record{"x", -3.0, "n", library.Record{4.0}}, nil, "`V` is -3 V, and must be above 0"},
		{library.Record{"x", 3.0, "n", library.Record{-4.0}}, nil, "`inner.V` is -4 V, and must be above 0"},
	} {
		got, f := fitted(t, c.given, false)
		if f == nil && !reflect.DeepEqual(got, c.want) || (f == nil) != (c.summary == "") || f != nil && f.Summary != c.summary {
			t.Errorf("%v: %v, %+v", c.given, got, f)
		}
	}
}

// TestFitRows picks the columns that a table parameter wants, of a list of records
// and of one record as a table of one row.
func TestFitRows(t *testing.T) {
	one := library.Record{"x", 3.0, "n", library.Record{4.0}}
	two := library.Record{"y", 5.0, nil, library.Record{6.0}}
	first := library.Record{3.0, 0.5, "n", library.Record{4.0}}
	for _, c := range []struct{ given, want any }{
		{library.List{one, two}, library.List{first, library.Record{5.0, 0.5, nil, library.Record{6.0}}}},
		{one, library.List{first}},
	} {
		if got, f := fitted(t, c.given, true); f != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%v: %v, %v", c.given, got, f)
		}
	}
	if _, f := fitted(t, library.List{library.Record{"x", -3.0, "n", library.Record{4.0}}}, true); f == nil || f.Summary != "`V` is -3 V, and must be above 0" {
		t.Errorf("%v", f)
	}
}

// TestSortKey wants numbers that differ by rounding alone to be alike in an order.
func TestSortKey(t *testing.T) {
	if a, b := sortKey(10.8), sortKey(10.8*(1+4e-16)); a != b {
		t.Errorf("%v and %v", a, b)
	}
	if a, b := sortKey(10.8), sortKey(10.8*(1+1e-10)); a == b {
		t.Errorf("%v and %v", a, b)
	}
	for _, v := range []any{math.Inf(1), 0.0, 1e300, "text"} {
		if got := sortKey(v); got != v {
			t.Errorf("%v became %v", v, got)
		}
	}
}
