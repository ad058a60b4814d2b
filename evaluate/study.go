package evaluate

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// value reports a definition, or what a study came to.
func (w *worker) value(d *program.Def) {
	state, waits := w.state(d)
	switch x := d.Node().(type) {
	case *program.Vary:
		if state == report.Evaluated {
			w.table(d, w.swept(d, x))
			return
		}
	case *program.Solve:
		if state == report.Evaluated {
			w.answer(d, []program.Variable{x.Over}, w.adjustNote(d, x), w.textOf(x.Left.Place().To(x.Right.Place())))
			return
		}
	case *program.Optimise:
		if state == report.Evaluated {
			w.answer(d, x.Over, w.tuneNote(d, x), w.goal(x))
			return
		}
	}
	if d.Name != "" {
		w.quantity(d)
	} else if state == report.Waiting {
		w.table(d, report.Table{Verb: verb(d), State: report.Waiting, Waits: waits})
	}
}

// verb is a study's first word.
func verb(d *program.Def) string {
	switch d.Node().(type) {
	case *program.Solve:
		return "adjust"
	case *program.Optimise:
		return "tune"
	}
	return "vary"
}

// table puts a study's table into its block.
func (w *worker) table(d *program.Def, t report.Table) {
	t.Name, t.Span = d.Name, d.Stmt.Place()
	b := &w.out.Blocks[d.Block]
	b.Tables = append(b.Tables, t)
}

// answer reports an adjust or tune: a named one as a quantity, another as a
// table of its own.
func (w *worker) answer(d *program.Def, over []program.Variable, note, what string) {
	v := w.machine.Value(d)
	if d.Name != "" {
		w.answered(d, v, note)
		return
	}
	values := library.Record{v}
	if r, isRecord := v.(library.Record); isRecord {
		values = r
	}
	t := report.Table{Verb: verb(d), Columns: answerColumns(d)}
	for i, o := range over {
		path := []int{i}
		if len(over) == 1 {
			path = nil
		}
		shown, _ := w.showSpread(o.Column(), values[i], w.spread(d, path), w.unitOf(d, o), w.digits(o.Name))
		t.Rows = append(t.Rows, []string{o.Name, shown, what})
		t.Values = append(t.Values, []any{o.Name, values[i], what})
	}
	if note != "" {
		t.Notes = append(t.Notes, note)
	}
	w.table(d, t)
}

func answerColumns(d *program.Def) []report.Column {
	what := "Adjusted"
	if verb(d) == "tune" {
		what = "Tuned"
	}
	return []report.Column{{Head: what, Code: true}, {Head: "Value", Number: true}, {Head: "For", Code: true}}
}

// unitOf is the unit of a study's answer: its own, else that of the variable.
func (w *worker) unitOf(d *program.Def, o program.Variable) units.Unit {
	if !d.Unit().IsZero() {
		return d.Unit()
	}
	return o.Def.Written()
}

// answered is the quantity row of a study, its finding behind the builder's note.
func (w *worker) answered(d *program.Def, v any, note string) {
	q := report.Quantity{
		Name: d.Name, Path: d.Sheet.Name, Span: d.Place, Block: d.Block, Shown: "—", Headline: true,
		Note: joined(d.Stmt.Common().Note, note),
	}
	r, isRecord := d.Type.(*program.Record)
	if !isRecord {
		w.flatten(q, d, nil, d.Type, v, d.Unit())
		return
	}
	for i, f := range r.Fields {
		part := q
		part.Name += "." + f.Name
		w.flatten(part, d, []int{i}, f.Type, v.(library.Record)[i], f.Unit)
		q.Note = ""
	}
}

// adjustNote says what an adjust found beside its value.
func (w *worker) adjustNote(d *program.Def, x *program.Solve) string {
	found, ok := w.machine.Kept(x).(*study.Finding)
	if !ok {
		return ""
	}
	var also []string
	for _, r := range found.Others {
		shown, _ := w.show(d.Type, r, w.unitOf(d, x.Over), w.digits(d.Name))
		also = append(also, shown)
	}
	note := ""
	if len(also) > 0 {
		note = "holds at " + enumerated(also) + " too"
	}
	if found.First {
		note = joined(note, "holds from the first step on")
	}
	return joined(note, w.breaks(found.Broken))
}

// breaks names limits that do not hold.
func (w *worker) breaks(limits []*program.Def) string {
	if len(limits) == 0 {
		return ""
	}
	return "breaks " + w.limitTexts(limits)
}

func (w *worker) limitTexts(limits []*program.Def) string {
	var texts []string
	for _, l := range limits {
		text := "a limit of " + ticked(l.Sheet.Name)
		if l.Sheet == w.program.Main {
			text = ticked(w.textOf(l.Stmt.(*syntax.Limit).Bound.Span))
		}
		texts = append(texts, text)
	}
	return enumerated(texts)
}

// goal is what a tune was after.
func (w *worker) goal(x *program.Optimise) string {
	return extreme(x) + w.textOf(x.Goal.Place())
}

func extreme(x *program.Optimise) string {
	if x.Most {
		return "most "
	}
	return "least "
}

// tuneNote says what a tune found beside its value.
func (w *worker) tuneNote(d *program.Def, x *program.Optimise) string {
	found, ok := w.machine.Kept(x).(*study.Finding)
	if !ok {
		return ""
	}
	name := w.textOf(x.Goal.Place())
	u := shownUnit(x.Goal)
	goal, _ := w.show(x.Goal.Type(), found.Goal, u, w.digits(name))
	note := extreme(x) + ticked(name) + ": " + goal
	if len(found.Binds) > 0 {
		note += "; held by " + w.limitTexts(found.Binds)
	}
	for _, e := range found.Edges {
		note += "; " + ticked(e) + " stands at an end of its range"
	}
	if n := found.Next; n != nil {
		at, _ := w.show(d.Type, n.At, w.unitOf(d, x.Over[0]), w.digits(d.Name))
		other, _ := w.show(x.Goal.Type(), n.Goal, u, w.digits(name))
		note += "; next best at " + at + ": " + other
	}
	return note
}
