package main

import (
	"cmp"
	"context"
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
	ctx, cancel := context.WithTimeoutCause(ctx, workTime, errTooLong)
	defer cancel()
	o, err := t.openSheet(g)
	if err != nil || o == nil {
		return err
	}
	r := evaluate.Work(ctx, o.sheet, o.load)
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if asJSON {
		return wire.Encode(t.out, wire.OfContents(o.shown, r))
	}
	t.out.printf("%s", t.contentsPage(r))
	return nil
}

// contentsPage is the lists of a worksheet's names.
func (t *tool) contentsPage(r *report.Report) string {
	var inputs, results [][2]string
	for _, group := range r.Groups() {
		row := [2]string{visible(group[0].Record()), visible(summary(group))}
		if group[0].Given {
			inputs = append(inputs, row)
		} else {
			results = append(results, row)
		}
	}
	var out strings.Builder
	t.group(&out, "can be changed (inkwing try "+visible(r.Sheet)+" NAME=VALUE)", inputs)
	t.group(&out, "worked from that", results)
	out.WriteString("\n" + t.out.wrap("\"inkwing explain "+visible(r.Sheet)+" NAME\" tells how one of them came about.", ""))
	return out.String()
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
