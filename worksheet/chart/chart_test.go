package chart

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"inkwing/evaluate/report"
)

var update = flag.Bool("update", false, "rewrite the goldens")

// charging is a charge worked and measured: lines, points, a band, limits near
// and far, two dimensions.
func charging() report.Chart {
	worked, bench := report.Series{Name: "V of ride.history"}, report.Series{Name: "V of log", Points: true}
	current := report.Series{Name: "I"}
	for k := range 41 {
		t := 2.5 * float64(k)
		worked.X, current.X = append(worked.X, t), append(current.X, t)
		worked.Y = append(worked.Y, 12.5*(1-math.Exp(-t/40)))
		worked.U = append(worked.U, 0.3+t/200)
		current.Y = append(current.Y, 3*math.Exp(-t/40))
		if k%8 == 4 {
			bench.X, bench.Y = append(bench.X, t), append(bench.Y, 12.3*(1-math.Exp(-t/42)))
		}
	}
	return report.Chart{
		Title: "Charging & resting", Alt: "V of ride.history from 0 V to 11.5 V; against t from 0 s to 100 s.",
		X: report.Axis{Name: "t", Unit: "s"},
		Panels: []report.Panel{
			{Name: "V", Unit: "V", Series: []report.Series{worked, bench}, Rules: []report.Rule{{Name: "store.rated_voltage", At: 13.5}, {Name: "300 V", At: 300}}},
			{Name: "I", Unit: "A", Series: []report.Series{current}},
		},
	}
}

// measured is points alone, out of order, with intervals, on a pure number.
func measured() report.Chart {
	return report.Chart{
		Title: "A title that is too long for one line of the page, and so is broken in two where a word of it ends",
		Alt:   "share", X: report.Axis{Name: "mass", Unit: "g"},
		Panels: []report.Panel{{Name: "share", Series: []report.Series{{
			Name: "share", Points: true, X: []float64{310, 290, 330}, Y: []float64{-0.25, -0.3, -0.31}, U: []float64{0.01, 0.02, 0.01},
		}}}},
	}
}

// many is more series than there are colours.
func many() report.Chart {
	p := report.Panel{Name: "h", Unit: "m"}
	for i := range 8 {
		y := float64(i)
		p.Series = append(p.Series, report.Series{Name: fmt.Sprintf("h of flight_%d", i), Points: i == 7, X: []float64{0, 1, 2}, Y: []float64{y, y + 1, y}})
	}
	return report.Chart{Title: "Many", X: report.Axis{Name: "t", Unit: "min"}, Panels: []report.Panel{p}}
}

// bars are two series against names, one with intervals, with a limit and a number
// below nothing.
func bars() report.Chart {
	at := []float64{1, 2, 3, 4}
	return report.Chart{
		Title: "What weighs, and where", Alt: "mass from 12 g to 150 g.", X: report.Axis{Name: "part"}, Bars: true,
		Labels: []string{"wing", "pack & straps", "motor", "radio"},
		Panels: []report.Panel{
			{Name: "mass", Unit: "g", Series: []report.Series{
				{Name: "mass of parts", X: at, Y: []float64{150, 62, 38, 12}, U: []float64{0, 3, 1.5, 0.5}},
				{Name: "mass of spares", X: at, Y: []float64{140, 62, math.NaN(), 12}},
			}, Rules: []report.Rule{{Name: "heaviest", At: 145}}},
			{Name: "arm", Unit: "mm", Series: []report.Series{{Name: "arm", X: at, Y: []float64{5, -40, -120, 60}, U: []float64{2, 2, 2, 2}}}},
		},
	}
}

func TestGoldens(t *testing.T) {
	for name, c := range map[string]report.Chart{"charging": charging(), "measured": measured(), "many": many(), "bars": bars()} {
		got, golden := Draw(c), "testdata/"+name+".svg"
		if *update {
			if err := os.WriteFile(golden, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, unix(want)) {
			t.Errorf("%s differs from %s: go test ./worksheet/chart -update, and look at it", name, golden)
		}
		if again := Draw(c); !bytes.Equal(got, again) {
			t.Errorf("%s is drawn in two ways", name)
		}
		sound(t, got)
	}
}

// sound wants a file to be XML with a title and a text, our mark, and nothing
// that a host would strip or fetch.
func sound(t *testing.T, text []byte) {
	t.Helper()
	if !IsOurs(text) {
		t.Error("the mark is missing")
	}
	seen := map[string]bool{}
	for d := xml.NewDecoder(bytes.NewReader(text)); ; {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%v in %s", err, text)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		seen[start.Name.Local] = true
		for _, a := range start.Attr {
			if a.Name.Local != "xmlns" && strings.Contains(a.Value, ":") || a.Name.Local == "style" || a.Name.Local == "href" || strings.HasPrefix(a.Name.Local, "on") {
				t.Errorf("an attribute %s=%q", a.Name.Local, a.Value)
			}
			if strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") {
				t.Fatalf("%s=%q in <%s>", a.Name.Local, a.Value, start.Name.Local)
			}
		}
	}
	for _, name := range []string{"title", "desc", "text", "rect"} {
		if !seen[name] {
			t.Errorf("no <%s>", name)
		}
		delete(seen, name)
	}
	for name := range seen {
		if name != "svg" && name != "metadata" && name != "path" {
			t.Errorf("an element <%s>", name)
		}
	}
}

// TestIsOurs wants the mark on its own line and nowhere else.
func TestIsOurs(t *testing.T) {
	ours := Draw(measured())
	inTitle := measured()
	inTitle.Title = mark
	for _, c := range []struct {
		text string
		ours bool
	}{
		{string(ours), true},
		{strings.ReplaceAll(string(ours), "\n", "\r\n"), true},
		{string(Draw(inTitle)), true},
		{strings.Replace(string(ours), mark+"\n", "", 1), false},
		{"<!-- -->\n" + string(ours), false},
		{"<svg >\n\n\n" + mark, false},
		{"<svg >\n<text>" + mark + "</text>\n</svg>\n", false},
		{"", false},
	} {
		if got := IsOurs([]byte(c.text)); got != c.ours {
			t.Errorf("%v for %.60q", got, c.text)
		}
	}
}

// TestSame lets pass what another processor rounds otherwise, and nothing more.
func TestSame(t *testing.T) {
	text := string(Draw(charging()))
	for _, c := range []struct {
		old, new string
		same     bool
	}{
		{"Charging", "Charging", true},
		{"M48.3 215.4L", "M48.2 215.5L", true},
		{"M48.3 215.4L", "M48.3 215.7L", false},
		{"M48.3 215.4L", "L48.3 215.4L", false},
		{"13.5 V<", "13.6 V<", false},
		{`height="538"`, `height="538.1"`, false},
		{"\n", "\r\n", true},
		{"</svg>", "</svg><!-- -->", false},
		{"</svg>\n", "</svg>", false},
	} {
		if !strings.Contains(text, c.old) {
			t.Fatalf("no %q there", c.old)
		}
		if got := Same([]byte(text), []byte(strings.ReplaceAll(text, c.old, c.new))); got != c.same {
			t.Errorf("%q for %q: %v", c.new, c.old, got)
		}
	}
}

// TestTicks wants round numbers, few and ascending, for reaches of every size.
func TestTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{0, 94.9, "0 20 40 60 80"},
		{0, 12.4, "0 5 10"},
		{0, 1, "0 0.2 0.4 0.6 0.8 1"},
		{-0.3, 0.25, "-0.2 0 0.2"},
		{4.93, 12.3, "6 8 10 12"},
		{1e-9, 4e-9, "1e-9 2e-9 3e-9 4e-9"},
		{1.5e9, 2.5e9, "1.6e9 1.8e9 2e9 2.2e9 2.4e9"},
	} {
		var labels []string
		for _, one := range (reach{c.low, c.high, true}).ticks(ySteps) {
			labels = append(labels, one.label)
		}
		if got := strings.Join(labels, " "); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
	}
}

// TestThinKeepsPeaks puts one peak and one dip into a long line.
func TestThinKeepsPeaks(t *testing.T) {
	var at []place
	for i := range 100_000 {
		at = append(at, place{float64(i) / 200, 100 + math.Sin(float64(i)/1000)})
	}
	at[40_321].y, at[70_007].y = 0, 300
	out := thinLine(at)
	if len(out) > 1200 {
		t.Errorf("%d places left", len(out))
	}
	for _, want := range []place{at[0], at[40_321], at[70_007], at[len(at)-1]} {
		if !has(out, want) {
			t.Errorf("%v is lost", want)
		}
	}
}

func has(list []place, want place) bool {
	for _, p := range list {
		if p == want {
			return true
		}
	}
	return false
}

// FuzzDraw wants valid files for any numbers and texts.
func FuzzDraw(f *testing.F) {
	f.Add("Charge", "V", "V", 0.0, 1.0, 2.0, 12.5, 0.1, false)
	f.Add("a\x00<b>&\"\u202e\xff", "]]>", "", math.MaxFloat64, -math.MaxFloat64, 5e-324, math.Inf(1), -1.0, true)
	f.Add("", "", "%", 1e300, 1e300, 1.0, 1+1e-15, math.NaN(), false)
	f.Fuzz(func(t *testing.T, title, name, unit string, a, b, c, d, u float64, points bool) {
		series := report.Series{Name: name, Points: points, X: []float64{a, b, c}, Y: []float64{d, a, b}, U: []float64{u, u, u}}
		other := report.Series{Name: title, X: []float64{c}, Y: []float64{b}}
		chart := report.Chart{Title: title, Alt: name, X: report.Axis{Name: name, Unit: unit}, Panels: []report.Panel{
			{Name: name, Unit: unit, Series: []report.Series{series, other}, Rules: []report.Rule{{Name: title, At: u}}},
			{Name: title, Series: []report.Series{other}},
		}}
		sound(t, Draw(chart))
	})
}

// FuzzThin holds thinning to its promise: the first, the last, the highest and
// the lowest stay, and nothing is made up.
func FuzzThin(f *testing.F) {
	f.Add(uint64(1), 3000, 600.0)
	f.Add(uint64(7), 1501, 2.0)
	f.Fuzz(func(t *testing.T, seed uint64, n int, width float64) {
		if n < 1 || n > 5000 || !(width > 0 && width < 1e6) {
			return
		}
		at := make([]place, n)
		for i := range at {
			seed = seed*6364136223846793005 + 1442695040888963407
			at[i] = place{float64(i) * width / float64(n), float64(seed >> 40)}
		}
		edge := outermost(at)
		for _, out := range [][]place{thinLine(at), thinPoints(at)} {
			set := map[place]bool{}
			for _, p := range out {
				set[p] = true
			}
			for i := range edge {
				if !set[at[i]] {
					t.Errorf("%v is lost of %d", at[i], n)
				}
			}
			all := map[place]bool{}
			for _, p := range at {
				all[p] = true
			}
			for p := range set {
				if !all[p] {
					t.Errorf("%v is made up", p)
				}
			}
		}
	})
}

func BenchmarkDraw(b *testing.B) {
	c := charging()
	b.ReportAllocs()
	for b.Loop() {
		Draw(c)
	}
}

// BenchmarkLong draws a logger's 100,000 readings.
func BenchmarkLong(b *testing.B) {
	s := report.Series{Name: "V"}
	for i := range 100_000 {
		s.X, s.Y = append(s.X, float64(i)), append(s.Y, math.Sin(float64(i)/500))
	}
	c := report.Chart{Title: "Long", X: report.Axis{Name: "t", Unit: "s"}, Panels: []report.Panel{{Name: "V", Unit: "V", Series: []report.Series{s}}}}
	b.ReportAllocs()
	for b.Loop() {
		Draw(c)
	}
}
