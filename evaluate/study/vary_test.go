package study_test

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate/program"
	"inkwing/evaluate/study"
)

// TestVary wants the rows of a sweep, worked by hand: "x y" a row, "?" for a cell
// that cannot be worked, "!" behind a row in which a limit does not hold, "~"
// where one cannot be worked.
func TestVary(t *testing.T) {
	for text, want := range map[string]string{
		"x = 1\ny = x^2\ns = vary x in 1 to 3: y":                                     "1 1, 2 4, 3 9",
		"x = 1\ny = x^2\ns = vary x in 3 to 1 by 1: y":                                "3 9, 2 4, 1 1",
		"x = 1\ny = x^2\ns = vary x in 1 to 4 by 2: y":                                "1 1, 3 9",
		"x = 1\ny = 10 * x\ns = vary x in 0 to 0.3 by 0.1: y":                         "0 0, 0.1 1, 0.2 2, 0.3 3", // though 3 * 0.1 > 0.3
		"x = 1\ny = x^2\ns = vary x in [5, 2]: y":                                     "5 25, 2 4",
		"x = 1\nz = 1\ny = 10 * x + z\ns = vary x in 1 to 2, z in 5 to 6: y":          "1 5 15, 1 6 16, 2 5 25, 2 6 26",
		"x = 1\ny = 6 / (x - 2)\nw = x\ns = vary x in 1 to 3: y, w":                   "1 -6 1, 2 ? 2, 3 6 3",
		"x = 1\ny = x^2\nlimit y <= 5\ns = vary x in 1 to 3: y":                       "1 1, 2 4, 3 9!",
		"x = 1\ny = x\nlimit 1 / (x - 2) <= 5\ns = vary x in 1 to 3: y":               "1 1, 2 2~, 3 3",
		"n = \"a\"\ny = if n == \"a\" then 1 else 2\ns = vary n in [\"b\", \"a\"]: y": "b 2, a 1",
	} {
		m, p := ran(t, text)
		d := p.Main.Names["s"]
		table, ok := m.Value(d).(*study.Table)
		if !ok {
			t.Errorf("%s: %v", text, m.Fault(d))
			continue
		}
		if got := rowsOf(table, len(d.Type.(*program.Table).Columns)); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}

func rowsOf(table *study.Table, columns int) string {
	var rows []string
	for r := range table.Len() {
		var cells []string
		for c := range columns {
			switch v := table.Cell(r, c).(type) {
			case program.Unknown:
				cells = append(cells, "?")
			case float64:
				cells = append(cells, fmt.Sprintf("%.9g", v))
			default:
				cells = append(cells, fmt.Sprint(v))
			}
		}
		rows = append(rows, strings.Join(cells, " ")+strings.Repeat("!", len(table.Broken[r]))+strings.Repeat("~", len(table.Silent[r])))
	}
	return strings.Join(rows, ", ")
}

// TestVaryUnknown says of a cell why it is unknown, and of the row the first
// fault.
func TestVaryUnknown(t *testing.T) {
	m, p := ran(t, "x = 1\ny = 6 / (x - 2)\ns = vary x in 1 to 3: y\na = s.y[2]")
	table := m.Value(p.Main.Names["s"]).(*study.Table)
	u, ok := table.Cell(1, 1).(program.Unknown)
	if !ok || u.What != "`y` in row 2" || !strings.Contains(u.Why, "this is zero") || table.Faults[1] == nil || table.Faults[0] != nil {
		t.Errorf("%+v, faults %v", u, table.Faults)
	}
	if f := m.Fault(p.Main.Names["a"]); f == nil || !strings.Contains(f.Summary, "`y` in row 2 could not be worked: this is zero") {
		t.Errorf("%v", f)
	}
}

// TestVaryNothing is the fault of a table in which nothing can be worked.
func TestVaryNothing(t *testing.T) {
	m, p := ran(t, "x = 1\ny = 6 / (x - x)\ns = vary x in 1 to 3: y")
	if f := m.Fault(p.Main.Names["s"]); f == nil || !strings.Contains(f.Summary, "no row of this can be worked; in the first, this is zero") {
		t.Errorf("%v", f)
	}
}

// sides are what limits allow, in their order.
func sides(limits []*program.Def) string {
	var list []string
	for _, l := range limits {
		bound := l.Body.(*program.Limit).Sides
		list = append(list, fmt.Sprint(bound[len(bound)-1].(*program.Const).Value))
	}
	return strings.Join(list, " ")
}
