package chart

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"inkwing/evaluate/report"
)

// texts are those of a drawing: where each stands, how large, and on which side of its place.
var texts = regexp.MustCompile(`<text x="([0-9.]+)" y="([0-9.]+)" font-size="([0-9.]+)"( font-weight="bold")? text-anchor="(\w+)"[^>]*>([^<]*)<`)

// A span is what a text covers, along the page, on a line.
type span struct {
	line     string
	from, to float64
	says     string
}

func spans(t *testing.T, svg string) (list []span) {
	t.Helper()
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, m := range texts.FindAllStringSubmatch(svg, -1) {
		x, wide := number(m[1]), width(strings.NewReplacer("&amp;", "&", "&#39;", "'").Replace(m[6]), number(m[3]), m[4] != "")
		switch m[5] {
		case "middle":
			x -= wide / 2
		case "end":
			x -= wide
		}
		list = append(list, span{line: m[2], from: x, to: x + wide, says: m[6]})
	}
	return list
}

// TestNarrow wants all texts of a drawing for a hand within it, none over another, in their
// full size, and the same legend as beside the wide one.
func TestNarrow(t *testing.T) {
	for name, c := range map[string]report.Chart{"charging": charging(), "measured": measured(), "many": many(), "bars": bars(), "two": run2(3000)} {
		svg := string(drawn(c, narrow).file(c, "", ""))
		all := spans(t, svg)
		if len(all) < 5 {
			t.Fatalf("%s: %d texts", name, len(all))
		}
		for i, a := range all {
			if a.from < 0 || a.to > narrow.width {
				t.Errorf("%s: %q stands from %.0f to %.0f", name, a.says, a.from, a.to)
			}
			for _, b := range all[:i] {
				if a.line == b.line && a.from < b.to && b.from < a.to {
					t.Errorf("%s: %q stands on %q", name, a.says, b.says)
				}
			}
		}
		inline := Narrow(c)
		for _, p := range layOut(c, wide).panels {
			for _, e := range p.entries {
				if begins := strings.TrimSuffix(e.text, "…"); !strings.Contains(inline, escape(begins[:min(len(begins), 20)])) {
					t.Errorf("%s: its legend lacks %q", name, e.text)
				}
			}
		}
		if strings.Contains(inline, `class="at"`) || strings.Contains(inline, "xmlns") {
			t.Errorf("%s: %.200s", name, inline)
		}
	}
}

// TestLongLabels leaves out what has no room: numbers that differ in their last digit alone.
func TestLongLabels(t *testing.T) {
	c := run2(4)
	for p := range c.Panels {
		for s := range c.Panels[p].Series {
			for i := range c.Panels[p].Series[s].X {
				c.Panels[p].Series[s].X[i] += 1e7
			}
		}
	}
	for _, f := range []form{wide, narrow} {
		p := layOut(c, f)
		if p.touch() || len(p.xTicks) == 0 {
			t.Errorf("at %g: %d labels, %v", f.width, len(p.xTicks), p.xTicks)
		}
	}
	if p := layOut(run2(100), wide); len(p.xTicks) < 4 {
		t.Errorf("of short ones stay %d", len(p.xTicks))
	}
}
