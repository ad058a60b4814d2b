package main

import (
	"inkwing/cmd/inkwing/layout"
	"inkwing/evaluate/report"
)

// flow prints pieces behind a coloured word, as many on a line as have room.
func (t *tool) flow(word string, pieces ...string) {
	pieces[0] = word + " " + pieces[0]
	t.out.printf("%s", layout.Flow(pieces, "  ", "    ", t.out.width))
}

// showFlips prints the limits, the readings and the lines that turned.
func (t *tool) showFlips(p *places, c *report.Comparison) {
	for _, l := range c.Broken {
		t.flow(t.out.yellow("now broken:"), limitPieces(l.New)...)
		if l.New.Advice != "" {
			t.out.printf("%s", t.out.wrap(visible(l.New.Advice), "    "))
		}
	}
	for _, l := range c.Doubtful {
		t.flow(t.out.yellow("now in doubt:"), limitPieces(l.New)...)
	}
	for _, l := range c.Mended {
		if l.New == nil {
			t.flow(t.out.green("now kept:"), visible(l.Old.Text), "(it is gone)")
			continue
		}
		t.flow(t.out.green("now kept:"), limitPieces(l.New)...)
	}
	for _, v := range c.Verdicts {
		t.flow(t.out.yellow("measured:"), visible(v.Name), turned(v))
	}
	for _, e := range c.Failing {
		p.print(t.out, "now fails:", t.out.red, e.Diagnostic)
	}
	for _, e := range c.Working {
		t.flow(t.out.green("mended:"), visible(e.Diagnostic.Summary))
	}
}

// limitPieces are a limit's text and what it comes to.
func limitPieces(l *report.Limit) []string {
	text := visible(l.Text)
	if l.Of != "" {
		text += " of " + visible(l.Of)
	}
	if l.Never {
		return []string{text, "does not arise: never reached"}
	}
	pieces := []string{text, "worked " + visible(l.Value) + ", allowed " + visible(l.Allowed)}
	if l.Headroom != "" {
		pieces[1] += ", headroom " + visible(l.Headroom)
	}
	return pieces
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

// row is a changed quantity, with what it waits for.
func (t *tool) row(d report.Difference) layout.Change {
	if !d.IsChange() {
		return layout.Change{Name: visible(d.New.Name), New: visible(d.New.Shown), Aside: t.out.dim("(unchanged)")}
	}
	row := t.changeRow(d.New.Name, d.Old.Shown, d.New.Shown, d.Percent)
	if d.New.Waits != "" {
		row.Aside = t.out.dim("(waits for " + visible(d.New.Waits) + ")")
	}
	return row
}

func (t *tool) changeRow(name, old, now, percent string) layout.Change {
	return layout.Change{Name: visible(name), Old: visible(old), New: visible(now), Share: t.out.dim(percent)}
}
