package main

import (
	"fmt"

	"inkwing/evaluate/report"
)

// showFlips prints the limits and lines that turned.
func (t *tool) showFlips(p *places, c *report.Comparison) {
	for _, l := range c.Broken {
		t.out.printf("  %s %s  worked %s, allowed %s, headroom %s\n", t.out.yellow("now broken:"), visible(l.New.Text),
			visible(l.New.Value), visible(l.New.Allowed), visible(l.New.Headroom))
		if l.New.Advice != "" {
			t.out.printf("%s", wrap(visible(l.New.Advice), "    "))
		}
	}
	for _, l := range c.Doubtful {
		t.out.printf("  %s %s  worked %s, allowed %s\n", t.out.yellow("now in doubt:"), visible(l.New.Text), visible(l.New.Value), visible(l.New.Allowed))
	}
	for _, l := range c.Mended {
		t.out.printf("  %s %s\n", t.out.green("now kept:"), mended(l))
	}
	for _, v := range c.Verdicts {
		t.out.printf("  %s %s  %s\n", t.out.yellow("measured:"), visible(v.Name), turned(v))
	}
	for _, e := range c.Failing {
		p.print(t.out, "now fails:", t.out.red, e.Diagnostic)
	}
	for _, e := range c.Working {
		t.out.printf("  %s %s\n", t.out.green("mended:"), visible(e.Diagnostic.Summary))
	}
}

func mended(l report.LimitChange) string {
	if l.New == nil {
		return visible(l.Old.Text) + "  (it is gone)"
	}
	return fmt.Sprintf("%s  worked %s, allowed %s, headroom %s", visible(l.New.Text), visible(l.New.Value), visible(l.New.Allowed), visible(l.New.Headroom))
}

// turned writes a verdict before and after.
func turned(v report.VerdictChange) string {
	if v.Old == "" {
		return visible(v.New) + "  (new)"
	}
	return visible(v.Old + " → " + v.New)
}

// showTables prints the tables of which rows differ.
func (t *tool) showTables(c *report.Comparison) {
	for _, x := range c.Tables {
		what := "table " + x.Name
		if x.Verb == "budget" {
			what = "budget of " + x.Name
		}
		differ := " rows differ"
		if x.Rows == 1 {
			differ = " row differs"
		}
		t.out.printf("  %s: %d of %d%s\n", visible(what), x.Rows, x.Of, differ)
	}
}

// difference writes a changed quantity, with what it waits for.
func (s *stream) difference(d report.Difference) string {
	line := s.change(d.New.Name, d.Old.Shown, d.New.Shown, d.Percent)
	if d.New.Waits != "" {
		line += "  " + s.dim("(waits for "+visible(d.New.Waits)+")")
	}
	return line
}
