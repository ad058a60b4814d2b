package main

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate"
	"inkwing/evaluate/report"
)

// contents lists what a worksheet names: what can be changed, with its value, and
// what comes of that.
func (t *tool) contents(ctx context.Context, path string, asJSON bool) error {
	f, err := t.find(ctx, &paths{}, []string{path})
	if err != nil {
		return err
	}
	defer f.close()
	g, err := f.only(path)
	if err != nil {
		return err
	}
	ctx, done := boundedWork(ctx)
	defer done()
	o, err := t.openSheet(ctx, g)
	if err != nil || o == nil {
		return err
	}
	var r *report.Report
	t.patiently(ctx, func(ctx context.Context) { r = evaluate.Work(ctx, o.sheet, o.load) })
	inputs := evaluate.Inputs(ctx, o.sheet, o.load)
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if asJSON {
		return wire.Encode(t.out, wire.OfContents(o.shown, r, inputs, o.places()))
	}
	t.out.printf("%s", t.contentsPage(r, inputs))
	return nil
}

// contentsPage is the lists of a worksheet's names.
func (t *tool) contentsPage(r *report.Report, inputs []report.Input) string {
	values := map[string]string{}
	var results [][2]string
	for _, group := range r.Groups() {
		if group[0].Given {
			values[group[0].Record()] = summary(group)
		} else {
			results = append(results, [2]string{visible(group[0].Record()), visible(summary(group))})
		}
	}
	var out strings.Builder
	t.group(&out, "can be changed (inkwing try "+visible(r.Sheet)+" NAME=VALUE)", t.changeable(inputs, values, report.PlainValue))
	t.group(&out, "inside calls (inkwing try "+visible(r.Sheet)+" 'NAME=VALUE')", t.changeable(inputs, nil, report.InCall))
	t.group(&out, "cells of tables", few(t.changeable(inputs, nil, report.InCell)))
	t.group(&out, "worked from that", results)
	out.WriteString("\n" + t.out.wrap("\"inkwing explain "+visible(r.Sheet)+" NAME\" tells how one of them came about.", ""))
	return out.String()
}

// changeable are inputs of a kind with what stands there; of the sheet's own plain
// values, with what they come to.
func (t *tool) changeable(inputs []report.Input, values map[string]string, kind report.InputKind) (rows [][2]string) {
	for _, in := range inputs {
		if in.Kind != kind {
			continue
		}
		text, known := values[in.Address]
		if !known {
			text = in.Text
			if in.Kind == report.InCell && in.Digits.End-in.Digits.Start == len(in.Text) {
				text = strings.TrimSpace(text + " " + in.Unit.String())
			}
			if in.Note != "" {
				text += "  # " + in.Note
			}
		}
		rows = append(rows, [2]string{visible(in.Address), visible(text)})
	}
	return rows
}

// mostCells is how many cells are listed.
const mostCells = 20

// few is a list cut where a page of it would say no more.
func few(rows [][2]string) [][2]string {
	if n := len(rows) - mostCells; n > 1 {
		return append(rows[:mostCells:mostCells], [2]string{"…", fmt.Sprintf("and %d more; --json lists them all", n)})
	}
	return rows
}

// mostFields is how many fields of a record stand for it.
const mostFields = 3

// summary is a value, or the first fields of a record, with the builder's note.
func summary(group []report.Quantity) string {
	text := cmp.Or(group[0].Shown, "—")
	if group[0].Name != group[0].Record() {
		var parts []string
		for _, q := range group[:min(mostFields, len(group))] {
			_, field, _ := strings.Cut(q.Name, ".")
			parts = append(parts, strings.TrimSpace(field+" "+q.Shown))
		}
		if len(group) > mostFields {
			parts = append(parts, "…")
		}
		text = strings.Join(parts, ", ")
	}
	if i := slices.IndexFunc(group, func(q report.Quantity) bool { return q.Note != "" }); i >= 0 {
		text += "  # " + group[i].Note
	}
	return text
}
