package present

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// value presents a definition, or what a study came to.
func (p *presenter) value(d *program.Def) {
	state, waits := p.w.State(d)
	f := finding{p.w, d}
	switch x := d.Node().(type) {
	case *program.Vary:
		if state == report.Evaluated {
			p.table(d, swept(p.w, &p.rough, &p.short, d, x))
			return
		}
	case *program.Solve:
		if state == report.Evaluated {
			over := []program.Variable{x.Over}
			p.answer(f, over, f.beside(f.solved(x), over, x.Left, x.Right), text(p.w, x.Left.Place().To(x.Right.Place())))
			return
		}
	case *program.Optimise:
		if state == report.Evaluated {
			p.answer(f, x.Over, f.beside(f.optimised(x), x.Over, x.Goal), f.goal(x))
			return
		}
	}
	if d.Name != "" {
		p.quantity(d)
	} else if state == report.Waiting {
		p.table(d, report.Table{Verb: verb(d), State: report.Waiting, Waits: waits})
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
func (p *presenter) table(d *program.Def, t report.Table) {
	t.Name, t.Span = d.Name, d.Stmt.Place()
	p.addTable(d.Block, t)
}

// answer presents what an adjust or tune found: under a name as a quantity, else as
// a table of its own.
func (p *presenter) answer(f finding, over []program.Variable, note, what string) {
	v := p.w.Machine.Value(f.d)
	if f.d.Name != "" {
		p.answered(f.d, v, note)
		return
	}
	t := f.table(over, v, what)
	if note != "" {
		t.Notes = append(t.Notes, note)
	}
	p.table(f.d, t)
}

// answered is the quantity row of a study, its finding behind the builder's note.
func (p *presenter) answered(d *program.Def, v any, note string) {
	q := report.Quantity{
		Name: d.Name, Path: d.Sheet.Name, Span: d.Place, Block: d.Block, Shown: "—", Headline: true,
		Note: message.Join(d.Stmt.Common().Note, note),
	}
	all := flattening{presenter: p, def: d, always: note != ""}
	r, isRecord := d.Type.(*program.Record)
	if !isRecord {
		all.add(q, nil, d.Type, v, d.Unit())
		return
	}
	for i, f := range r.Fields {
		part := q
		part.Name += "." + f.Name
		all.add(part, []int{i}, f.Type, v.(library.Record)[i], f.Unit)
		q.Note = ""
	}
}

// A finding is the answer of one adjust or tune.
type finding struct {
	w *working.Evaluation
	d *program.Def
}

// table has a row for each variable.
func (f finding) table(over []program.Variable, v any, what string) report.Table {
	values := library.Record{v}
	if r, isRecord := v.(library.Record); isRecord {
		values = r
	}
	t := report.Table{Verb: verb(f.d), Columns: answerColumns(f.d)}
	for i, o := range over {
		path := []int{i}
		if len(over) == 1 {
			path = nil
		}
		shown, _ := show.Uncertain(o.Column(), values[i], f.w.UncertaintyOf(f.d, path), f.unit(o), digits(f.w, o.Name))
		t.Rows = append(t.Rows, []string{o.Name, shown, what})
		t.Values = append(t.Values, []any{o.Name, values[i], what})
	}
	return t
}

func answerColumns(d *program.Def) []report.Column {
	what := "Adjusted"
	if verb(d) == "tune" {
		what = "Tuned"
	}
	return []report.Column{{Head: what, Code: true}, {Head: "Value", Number: true}, {Head: "For", Code: true}}
}

// unit is the unit of a study's answer: its own, else that of the variable.
func (f finding) unit(o program.Variable) units.Unit {
	if !f.d.Unit().IsZero() {
		return f.d.Unit()
	}
	return o.Def.Written()
}

// beside joins what was found to what stands in the way of a variable.
func (f finding) beside(note string, over []program.Variable, outputs ...program.Node) string {
	return message.Join(append([]string{note}, bypasses(f.w, f.d.Body.(*program.Study).Touched, over, outputs...)...)...)
}

// solved says what an adjust found beside its value.
func (f finding) solved(x *program.Solve) string {
	found, ok := f.w.Machine.Kept(x).(*study.Finding)
	if !ok {
		return ""
	}
	var also []string
	for _, r := range found.Others {
		shown, _ := show.Value(f.d.Type, r, f.unit(x.Over), digits(f.w, f.d.Name))
		also = append(also, shown)
	}
	note := ""
	if len(also) > 0 {
		note = "holds at " + message.Enumerate(also) + " too"
	}
	if found.First {
		note = message.Join(note, "holds from the first step on")
	}
	return message.Join(note, breaks(f.w, found.Broken))
}

// goal is what a tune was after.
func (f finding) goal(x *program.Optimise) string {
	return extreme(x) + text(f.w, x.Goal.Place())
}

func extreme(x *program.Optimise) string {
	if x.Most {
		return "most "
	}
	return "least "
}

// optimised says what a tune found beside its value.
func (f finding) optimised(x *program.Optimise) string {
	found, ok := f.w.Machine.Kept(x).(*study.Finding)
	if !ok {
		return ""
	}
	name := text(f.w, x.Goal.Place())
	u := show.UnitOf(x.Goal)
	goal, _ := show.Value(x.Goal.Type(), found.Goal, u, digits(f.w, name))
	note := extreme(x) + message.Quote(name) + ": " + goal
	if len(found.Binds) > 0 {
		note += "; held by " + limitTexts(f.w, found.Binds)
	}
	for _, e := range found.Edges {
		note += "; " + message.Quote(e) + " stands at an end of its range"
	}
	if n := found.Next; n != nil {
		at, _ := show.Value(f.d.Type, n.At, f.unit(x.Over[0]), digits(f.w, f.d.Name))
		other, _ := show.Value(x.Goal.Type(), n.Goal, u, digits(f.w, name))
		note += "; next best at " + at + ": " + other
	}
	return note
}

// breaks names limits that do not hold.
func breaks(w *working.Evaluation, limits []*program.Def) string {
	if len(limits) == 0 {
		return ""
	}
	return "breaks " + limitTexts(w, limits)
}
