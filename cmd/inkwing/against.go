package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"inkwing/cmd/inkwing/layout"
	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// against checks worksheets and compares each with what it was in git.
func (t *tool) against(ctx context.Context, p *paths, rev string, args []string) error {
	if err := wantsNames(rev, args); err != nil {
		return err
	}
	f, err := t.find(ctx, p, args)
	if err != nil {
		return err
	}
	defer f.close()
	var traces []wire.Trace
	for _, g := range f.found {
		if g.walked {
			return trouble{errors.New("--against compares single worksheets, not folders"), "name the files"}
		}
		var c compared
		t.patiently(ctx, func(ctx context.Context) { c = t.compareOne(ctx, p, rev, g) })
		if ctx.Err() != nil {
			return ctx.Err()
		}
		t.worsen(c.status())
		switch {
		case p.format != asJSON:
			t.showAgainst(p, rev, c)
		case c.err != nil:
			t.complain(c.failure())
		}
		traces = append(traces, wire.OfTrace(c.form(), c.trace))
	}
	if p.format == asJSON {
		return wire.Encode(t.out, wire.OfAgainst(rev, traces))
	}
	return nil
}

// wantsNames refuses a call that names no revision, or no worksheet.
func wantsNames(rev string, args []string) error {
	switch {
	case rev == "":
		return trouble{errors.New("--against wants a revision"), "for example: inkwing check --against HEAD notes.md"}
	case len(args) == 0:
		return trouble{errors.New("--against wants a worksheet"), "name the file: inkwing check --against " + rev + " notes.md"}
	}
	return nil
}

// A compared is a checked worksheet with its trace.
type compared struct {
	outcome
	trace *report.Trace // nil where there is nothing to compare
}

func (t *tool) compareOne(ctx context.Context, p *paths, rev string, g *target) compared {
	c := compared{outcome: checkOne(ctx, g)}
	if c.err != nil || c.result.Report == nil {
		return c
	}
	ctx, done := boundedWork(ctx)
	defer done()
	c.trace, c.err = c.traceIn(ctx, rev)
	if ctx.Err() != nil {
		c.err = context.Cause(ctx)
	}
	if c.err == nil && len(p.show) > 0 {
		c.err = p.choose(c.trace.Comparison, c.trace.Now)
	}
	return c
}

func (c compared) traceIn(ctx context.Context, rev string) (*report.Trace, error) {
	files, err := openRevision(ctx, c.base, rev)
	if err != nil {
		return nil, err
	}
	defer files.close()
	text, err := files.Read(c.name)
	if err != nil {
		return nil, err
	}
	old, err := asVersion(ctx, files, c.name, text)
	if err != nil {
		return nil, fmt.Errorf("in %s %w", rev, err)
	}
	now, err := asVersion(ctx, c.folder, c.name, c.result.Source)
	if err != nil {
		return nil, err
	}
	return evaluate.Against(ctx, old, now), nil
}

// asVersion reads a text as a sheet.
func asVersion(ctx context.Context, files worksheet.Files, name string, text []byte) (evaluate.Version, error) {
	sheet, load, refused := worksheet.Sheet(ctx, files, name, text)
	if len(refused) > 0 {
		line, _ := message.NewSource(name, text).Position(refused[0].Span.Start)
		return evaluate.Version{}, trouble{fmt.Errorf("it cannot be worked: line %d: %s", line, refused[0].Summary), refused[0].Hint}
	}
	return evaluate.Version{Sheet: sheet, Load: load}, nil
}

func (t *tool) showAgainst(p *paths, rev string, c compared) {
	if c.result != nil {
		state := "fresh"
		if c.result.Changed() {
			state = "stale"
		}
		t.showSummary(t.out, c.outcome, state)
		t.showFindings(t.out, c.outcome)
		t.showCharts(c.outcome)
	}
	if c.err != nil {
		t.complain(c.failure())
		return
	}
	if c.trace != nil {
		t.out.printf("%s\n", t.out.bold("against "+visible(rev)))
		t.showTrace(p, c)
	}
}

func (t *tool) showTrace(p *paths, c compared) {
	x := c.trace
	if x.Empty() && len(x.Causes) == 0 {
		t.out.printf("  %s\n", t.out.dim("nothing changes"))
		return
	}
	t.showFlips(newPlaces(c.outcome), x.Comparison)
	for _, cause := range x.Causes {
		t.flow(t.out.dim("changed:"), cased(cause)...)
	}
	asked := c.asked()
	var rows []listed
	for _, d := range x.Changed {
		row := t.row(d)
		row.Under = visible(shares(d))
		rows = append(rows, listed{row, asked[d.New.Name]})
	}
	t.listChanges(rows, p.all || len(p.show) > 0)
	if len(p.show) > 0 {
		return
	}
	t.showTables(x.Comparison)
	rows = nil
	for _, q := range x.Added {
		rows = append(rows, listed{t.once(q, "(new)"), asked[q.Name]})
	}
	for _, q := range x.Gone {
		rows = append(rows, listed{t.once(q, "(gone)"), true})
	}
	t.listChanges(rows, p.all)
}

// once is a quantity that stands on one side only.
func (t *tool) once(q report.Quantity, aside string) layout.Change {
	return layout.Change{Name: visible(q.Name), New: visible(q.Shown), Aside: t.out.dim(aside)}
}

// asked are the quantities that the worksheet names.
func (c compared) asked() map[string]bool {
	sheet, _, refused := worksheet.Sheet(context.Background(), c.folder, c.name, c.result.Source)
	if len(refused) > 0 {
		return nil
	}
	return sheet.Asked()
}

// cased is a cause with what it was and is.
func cased(c report.Cause) []string {
	switch {
	case c.Old == "":
		return []string{visible(c.Name), visible(c.New), "(new)"}
	case c.New == "":
		return []string{visible(c.Name), visible(c.Old), "(gone)"}
	case c.Old == c.New:
		return []string{visible(c.Name)}
	}
	return []string{visible(c.Name), visible(c.Old + " → " + c.New)}
}

// shares says what a change comes from: "n_series 80 %, V_full 20 %".
func shares(d report.Difference) string {
	var parts []string
	if len(d.Shares) == 1 && d.Shares[0].Cause == d.New.Name {
		return "" // it is the input itself
	}
	for _, s := range d.Shares {
		parts = append(parts, s.Cause+" "+s.Shown)
	}
	return strings.Join(parts, ", ")
}
