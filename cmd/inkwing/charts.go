package main

import (
	"context"
	"fmt"
	"path"

	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// write brings a target and the charts beside it up to date: the charts that
// the text shows before the text, those that it no longer shows after it.
func (g *target) write(ctx context.Context, r *worksheet.Result) error {
	for _, c := range r.Charts {
		if c.New != nil {
			if err := g.folder.Put(ctx, c.Path, c.Old, c.New); err != nil {
				return fmt.Errorf("%s %w", g.display(c.Path), err)
			}
		}
	}
	if r.TextChanged() {
		if err := g.folder.Replace(ctx, g.name, r.Source, r.Output); err != nil {
			return err
		}
	}
	for _, c := range r.Charts {
		if c.New == nil {
			if err := g.folder.Remove(ctx, c.Path, c.Old); err != nil {
				return fmt.Errorf("%s %w", g.display(c.Path), err)
			}
		}
	}
	return nil
}

// charts counts the charts that a report shows.
func charts(r *report.Report) int {
	n := 0
	for _, b := range r.Blocks {
		n += len(b.Charts)
	}
	return n
}

// A chart is in one of these states before a run, and comes to one by it.
func chartState(c worksheet.ChartFile) (before, done string) {
	switch {
	case c.New == nil:
		return "left over", "removed"
	case c.Old == nil:
		return "missing", "written"
	}
	return "stale", "written"
}

// showCharts prints a line for each chart file that was, or should be, written
// or removed.
func (t *tool) showCharts(o outcome) {
	for _, c := range o.result.Charts {
		state, done := chartState(c)
		if o.written {
			state = done
		}
		t.out.printf("  %s  %s\n", visible(o.display(c.Path)), state)
	}
}

// noteCharts says what becomes of the chart files where only a text is printed.
func (t *tool) noteCharts(o outcome) {
	for _, c := range o.result.Charts {
		_, done := chartState(c)
		says := "would be " + done
		if o.isStdin() {
			says = "is not " + done + " from the standard input"
		}
		t.err.printf("%s %s %s\n", t.err.dim("inkwing: note:"), visible(o.display(c.Path)), says)
	}
}

type jsonChart struct {
	Path   string `json:"path"`
	Line   int    `json:"line"` // 0 for a file that is left over
	Title  string `json:"title"`
	Alt    string `json:"alt"`
	State  string `json:"state"`  // of the file when the worksheet was worked: fresh, stale, missing, left over; waiting for a chart without one
	Change string `json:"change"` // what the run did: written, removed; else empty
}

// charts lists the charts of an outcome, then the files left over.
func (p *places) charts(o outcome) (list []jsonChart) {
	files := map[string]worksheet.ChartFile{}
	for _, c := range o.result.Charts {
		files[c.Path] = c
	}
	if o.result.Report != nil {
		for _, b := range o.result.Report.Blocks {
			for _, c := range b.Charts {
				list = append(list, p.chart(o, c, files))
			}
		}
	}
	for _, c := range o.result.Charts {
		if c.New == nil {
			list = append(list, fileChart(o, c))
		}
	}
	return list
}

func (p *places) chart(o outcome, c report.Chart, files map[string]worksheet.ChartFile) jsonChart {
	x := jsonChart{Line: p.line(c.Span), Title: c.Title, Alt: c.Alt, State: "waiting"}
	if c.State != report.Evaluated {
		return x
	}
	at := path.Join(path.Dir(o.name), c.File)
	x.Path, x.State = o.display(at), "fresh"
	if file, differs := files[at]; differs {
		f := fileChart(o, file)
		x.State, x.Change = f.State, f.Change
	}
	return x
}

func fileChart(o outcome, c worksheet.ChartFile) jsonChart {
	before, done := chartState(c)
	x := jsonChart{Path: o.display(c.Path), State: before}
	if o.written {
		x.Change = done
	}
	return x
}
