package main

import (
	"context"
	"fmt"

	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet"
)

// An opened is a target read as a sheet.
type opened struct {
	*target
	text  []byte
	sheet *sheet.Sheet
	load  sheet.Loader
}

// openSheet reads a target; nil where it is refused, which is then said.
func (t *tool) openSheet(ctx context.Context, g *target) (*opened, error) {
	text, err := g.read()
	if err != nil {
		return nil, outcome{target: g, err: err}.failure()
	}
	o := &opened{target: g, text: text}
	var refused []message.Diagnostic
	o.sheet, o.load, refused = worksheet.Sheet(ctx, g.folder, g.name, text)
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}
	if len(refused) > 0 {
		t.refuse(o.places(), refused)
		return nil, nil
	}
	if len(o.sheet.Blocks) == 0 {
		return nil, trouble{fmt.Errorf("%s holds no working block", g.shown), "name a worksheet"}
	}
	return o, nil
}

// only is the one file that was named.
func (f *finder) only(path string) (*target, error) {
	if len(f.found) != 1 || f.found[0].walked {
		return nil, trouble{fmt.Errorf("%s is no single file", path), "name one worksheet"}
	}
	g := f.found[0]
	if g.err != nil {
		return nil, outcome{target: g, err: g.err}.failure()
	}
	return g, nil
}

func (o *opened) places() *places {
	return newPlaces(outcome{target: o.target, result: &worksheet.Result{Source: o.text}})
}

// refuse prints why the command could not do its job.
func (t *tool) refuse(p *places, list []message.Diagnostic) {
	for _, d := range list {
		p.print(t.err, "error:", t.err.red, d)
	}
	t.worsen(failed)
}
