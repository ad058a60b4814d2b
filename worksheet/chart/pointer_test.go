package chart

import (
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/report"
)

func run2(n int) report.Chart {
	c := report.Chart{Title: "Two", X: report.Axis{Name: "t", Unit: "s"}, Panels: []report.Panel{
		{Name: "V", Unit: "V", Series: []report.Series{{Name: "V"}}}, {Name: "I", Unit: "A", Series: []report.Series{{Name: "I"}, {Name: "read", Points: true, X: []float64{1}, Y: []float64{7}, U: []float64{0.5}}}}}}
	for i := range n {
		for p := range c.Panels {
			s := &c.Panels[p].Series[0]
			s.X, s.Y = append(s.X, float64(i)), append(s.Y, float64(10*(p+1)+i))
		}
	}
	return c
}

// TestInline tells the numbers at each place, whole and without what belongs to a
// file.
func TestInline(t *testing.T) {
	text := Inline(run2(3))
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("%v in %s", err, text)
		}
	}
	for _, want := range []string{"t 0 s, V 10 V, I 20 A, read 7 A", "t 2 s, V 12 V, I 22 A, read 7 A", `class="at"`} {
		if !strings.Contains(strings.ReplaceAll(text, "  ", " "), want) {
			t.Errorf("without %q", want)
		}
	}
	for _, not := range []string{"xmlns", mark, "style="} {
		if strings.Contains(text, not) {
			t.Errorf("with %q", not)
		}
	}
	if n := strings.Count(Inline(run2(5000)), "<g><path"); n != strips {
		t.Errorf("%d places tell their numbers", n)
	}
}

// TestNumbers has one table for the series that share their places, with the last row
// of a long one.
func TestNumbers(t *testing.T) {
	tables := Numbers(run2(3))
	if len(tables) != 2 || len(tables[0].Columns) != 3 || len(tables[0].Rows) != 3 || strings.Join(tables[0].Rows[2], " ") != "2 12 22" {
		t.Fatalf("%+v", tables)
	}
	if row := strings.Join(tables[1].Rows[0], " "); row != "1 7.00 ± 0.50" {
		t.Errorf("%q", row)
	}
	long := Numbers(run2(1000))[0]
	if n := len(long.Rows); n > readings+1 || long.Rows[n-1][0] != "999" || long.Notes[0] != "Of 1000 rows each 25th is shown, and the last." {
		t.Errorf("%d rows, the last %q, %q", n, long.Rows[n-1], long.Notes)
	}
}

// TestSteady wants two numbers that processors tell apart in the last bits to be one
// on the page, on a border between two roundings above all.
func TestSteady(t *testing.T) {
	for _, v := range []float64{40.625, 0.00015, 1.2345e-7, -2.5e9, 0, math.Inf(1)} {
		a, b := math.Nextafter(v, math.Inf(1)), math.Nextafter(math.Nextafter(v, math.Inf(-1)), math.Inf(-1))
		if v == 0 || math.IsInf(v, 0) {
			a, b = v, v
		}
		if x, y := appendReading(nil, "h", a, "m"), appendReading(nil, "h", b, "m"); string(x) != string(y) || steady(v) != v {
			t.Errorf("%v: %s and %s", v, x, y)
		}
	}
}
