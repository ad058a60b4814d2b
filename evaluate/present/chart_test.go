package present_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// chartOf works a case of the suite's form and gives its last chart.
func chartOf(t *testing.T, text string) report.Chart {
	t.Helper()
	r := evaluate.Work(t.Context(), kit.Page(text), nil)
	for _, d := range r.Errors {
		t.Fatalf("%s; %s", d.Summary, d.Hint)
	}
	charts := r.Blocks[0].Charts
	return charts[len(charts)-1]
}

const benchLog = `
-- table log
t [s] | U [mV] | I [A] | W [V]
0 | 12500 | 3 | 12.4
60 | 11900 ± 200 | 2.9 | 11.8
120 | 11 V ± 0.1 V | 2.7 | 11.2
`

// TestChartPanels wants one panel a dimension, in the units asked for.
func TestChartPanels(t *testing.T) {
	c := chartOf(t, `chart "A B": U [V], I [mA], W against t [min] from log`+benchLog)
	if c.Slug != "a-b" || c.X != (report.Axis{Name: "t", Unit: "min"}) || len(c.Panels) != 2 {
		t.Fatalf("%+v", c)
	}
	volts, amps := c.Panels[0], c.Panels[1]
	if volts.Name != "U, W" || volts.Unit != "V" || amps.Name != "I" || amps.Unit != "mA" {
		t.Errorf("%s [%s], %s [%s]", volts.Name, volts.Unit, amps.Name, amps.Unit)
	}
	near(t, "time", volts.Series[0].X, 0, 1, 2)
	near(t, "voltage", volts.Series[0].Y, 12.5, 11.9, 11)
	near(t, "current", amps.Series[0].Y, 3000, 2900, 2700)
	near(t, "interval", volts.Series[0].U, 0, 0.2, 0.1)
	if !volts.Series[0].Points || volts.Series[1].U != nil {
		t.Errorf("%+v", volts.Series)
	}
}

func near(t *testing.T, what string, got []float64, want ...float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %v, want %v", what, got, want)
	}
	for i := range got {
		if math.Abs(got[i]-want[i]) > 1e-9 {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
}

// TestChartBand sets the interval of a vary against the rule for a product:
// U(n·x) = n·U(x).
func TestChartBand(t *testing.T) {
	c := chartOf(t, `x = 5 J ± 0.5 J
n = 1
E = n * x
study = vary n in 1 to 3 by 1: E [J]
chart "Energy": E [J] against n from study, bench
-- table bench
n [1] | E [J]
2 | 9.5`)
	s := c.Panels[0].Series
	if len(s) != 2 || s[0].Name != "E of study" || s[1].Name != "E of bench" || s[0].Points || !s[1].Points {
		t.Fatalf("%+v", s)
	}
	near(t, "energy", s[0].Y, 5, 10, 15)
	near(t, "interval", s[0].U, 0.5, 1, 1.5)
}

// TestChartRules wants the limits on what is drawn, and no others.
func TestChartRules(t *testing.T) {
	c := chartOf(t, `W = 11 V
top = 13.5 V
limit 10 V <= W <= top
limit max(log.U) <= 13 V
limit max(log.I) <= 5 A
limit top <= 14 V
chart "Limits": U [V], W against t from log`+benchLog)
	var got []string
	for _, r := range c.Panels[0].Rules {
		got = append(got, fmt.Sprintf("%s at %g", r.Name, r.At))
	}
	if text := strings.Join(got, ", "); text != "13 V at 13, 10 V at 10, top at 13.5" {
		t.Error(text)
	}
}

// TestChartRuleOfField draws a limit on a field that a study evaluated.
func TestChartRuleOfField(t *testing.T) {
	c := chartOf(t, `cell = capacitor(50 F, 2.7 V, resistance: 16 mΩ)
n = 4
store = pack(cell, series: n)
limit store.capacitance >= 12 F
limit store.rated_voltage >= 1 V
sweep = vary n in 3 to 6 by 1: store.capacitance [F]
chart "Strings": store_capacitance [F] against n from sweep`)
	if r := c.Panels[0].Rules; len(r) != 1 || r[0] != (report.Rule{Name: "12 F", At: 12}) {
		t.Errorf("%+v", r)
	}
}

// TestChartAlt holds the words under a picture.
func TestChartAlt(t *testing.T) {
	c := chartOf(t, `limit max(log.U) <= 13 V
chart "Rest": U [V], I against t [s] from log`+benchLog)
	want := "Rest: U, measured, with its interval, 11–12.5 V; I, measured, 2.7–3 A; against t 0–120 s; limit 13 V."
	if c.Alt != want {
		t.Errorf("%s\nwant %s", c.Alt, want)
	}
}

// TestChartAltBelowZero wants no dash before a sign, and of a line that stays where
// it is its one value.
func TestChartAltBelowZero(t *testing.T) {
	c := chartOf(t, `log = vary x in [-3, 2, 1]: U, W
x = 1
U = x * 1 V
W = 5 W + 0 W * x
chart "Rest": U [V], W against x from log`)
	if want := "Rest: U -3 to 2 V; W 5 W; against x -3 to 2."; c.Alt != want {
		t.Errorf("%s\nwant %s", c.Alt, want)
	}
}

// TestChartAltNarrow wants as many digits as tell the ends of a narrow line apart.
func TestChartAltNarrow(t *testing.T) {
	c := chartOf(t, `log = vary x in [9.99, 10.02, 10]: U
x = 10
U = x * 1 V
chart "Rest": U [V] against x from log`)
	if want := "Rest: U 9.99–10.02 V; against x 9.99–10.02."; c.Alt != want {
		t.Errorf("%s\nwant %s", c.Alt, want)
	}
}

// TestChartUnit wants one fitting unit for a whole column.
func TestChartUnit(t *testing.T) {
	c := chartOf(t, `chart "Small": I against t from log
-- table log
t [s] | I [A]
0 | 0.000001
1 | 0.02`)
	if c.Panels[0].Unit != "mA" {
		t.Error(c.Panels[0].Unit)
	}
}
