package main

import (
	"context"
	"time"

	"github.com/spf13/cobra"

	"inkwing/evaluate"
	"inkwing/evaluate/manual"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// completeTime bounds the work for one press of a key.
const completeTime = time.Second

// worksheets completes the names of Markdown files.
func worksheets() ([]string, cobra.ShellCompDirective) {
	return []string{"md"}, cobra.ShellCompDirectiveFilterFileExt
}

// completeTry offers a file, then its plain values.
func (t *tool) completeTry(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return worksheets()
	}
	var out []string
	for _, in := range t.inputsOf(c.Context(), args[0]) {
		out = append(out, in.Address+"=")
	}
	return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

// targetAt is the worksheet of that path, nil where there is none; done ends with it.
func targetAt(path string) (g *target, done func()) {
	f, err := newFinder("")
	if err != nil {
		return nil, func() {}
	}
	f.add(path)
	if g, err = f.only(path); err != nil {
		g = nil
	}
	return g, f.close
}

// inputsOf reads a file for what can be changed in it; none where it cannot be read.
func (t *tool) inputsOf(ctx context.Context, path string) []report.Input {
	g, done := targetAt(path)
	defer done()
	if g == nil {
		return nil
	}
	text, err := g.read()
	if err != nil {
		return nil
	}
	s, load, refused := worksheet.Sheet(ctx, g.folder, g.name, text)
	if len(refused) > 0 || ctx.Err() != nil {
		return nil
	}
	return evaluate.Inputs(ctx, s, load)
}

// quantitiesOf works a file for the names in it; none where it cannot be worked.
func (t *tool) quantitiesOf(ctx context.Context, path string) []report.Quantity {
	g, done := targetAt(path)
	defer done()
	if g == nil {
		return nil
	}
	ctx, cancel := context.WithTimeout(ctx, completeTime)
	defer cancel()
	r, err := g.work(ctx)
	if err != nil || r == nil || r.Report == nil {
		return nil
	}
	return r.Report.Quantities
}

// completeExplain offers all that can be described, and files; behind a file its
// quantities.
func (t *tool) completeExplain(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return manual.Names(), cobra.ShellCompDirectiveDefault
	}
	var out []string
	for _, q := range t.quantitiesOf(c.Context(), args[0]) {
		out = append(out, q.Name)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
