package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

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
		c := t.compareOne(ctx, rev, g)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		t.worsen(c.status())
		switch {
		case p.format != asJSON:
			t.showAgainst(rev, c)
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

func (t *tool) compareOne(ctx context.Context, rev string, g *target) compared {
	c := compared{outcome: checkOne(ctx, g)}
	if c.err != nil || c.result.Report == nil {
		return c
	}
	ctx, cancel := context.WithTimeoutCause(ctx, workTime, errTooLong)
	defer cancel()
	c.trace, c.err = c.traceIn(ctx, rev)
	if ctx.Err() != nil {
		c.err = context.Cause(ctx)
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
	old, err := asVersion(files, c.name, text)
	if err != nil {
		return nil, fmt.Errorf("in %s %w", rev, err)
	}
	now, err := asVersion(c.folder, c.name, c.result.Source)
	if err != nil {
		return nil, err
	}
	return evaluate.Against(ctx, old, now), nil
}

// asVersion reads a text as a sheet.
func asVersion(files worksheet.Files, name string, text []byte) (evaluate.Version, error) {
	sheet, load, refused := worksheet.Sheet(files, name, text)
	if len(refused) > 0 {
		line, _ := message.NewSource(name, text).Position(refused[0].Span.Start)
		return evaluate.Version{}, trouble{fmt.Errorf("it cannot be worked: line %d: %s", line, refused[0].Summary), refused[0].Hint}
	}
	return evaluate.Version{Sheet: sheet, Load: load}, nil
}

func (t *tool) showAgainst(rev string, c compared) {
	if c.result != nil {
		state := "fresh"
		if c.result.Changed() {
			state = "stale"
		}
		t.showSummary(t.out, c.outcome, state)
		t.showCharts(c.outcome)
		t.showFindings(t.out, c.outcome)
	}
	if c.err != nil {
		t.complain(c.failure())
		return
	}
	if c.trace != nil {
		t.out.printf("%s\n", t.out.bold("against "+visible(rev)))
		t.showTrace(c)
	}
}

func (t *tool) showTrace(c compared) {
	x := c.trace
	if x.Empty() && len(x.Causes) == 0 {
		t.out.printf("  %s\n", t.out.dim("nothing changes"))
		return
	}
	for _, cause := range x.Causes {
		t.out.printf("  %s %s\n", t.out.dim("changed:"), cased(cause))
	}
	t.showFlips(newPlaces(c.outcome), x.Comparison)
	for _, d := range x.Changed {
		t.out.printf("  %s\n", t.out.difference(d))
		if text := shares(d); text != "" {
			t.out.printf("%s", wrap(visible(text), "    "))
		}
	}
	t.showTables(x.Comparison)
	for _, q := range x.Added {
		t.out.printf("  %s  %s  %s\n", visible(q.Name), visible(q.Shown), t.out.dim("(new)"))
	}
	for _, q := range x.Gone {
		t.out.printf("  %s  %s  %s\n", visible(q.Name), visible(q.Shown), t.out.dim("(gone)"))
	}
}

// cased is a cause with what it was and is.
func cased(c report.Cause) string {
	switch {
	case c.Old == "":
		return visible(c.Name + "  " + c.New + "  (new)")
	case c.New == "":
		return visible(c.Name + "  " + c.Old + "  (gone)")
	case c.Old == c.New:
		return visible(c.Name)
	}
	return visible(c.Name + "  " + c.Old + " → " + c.New)
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
