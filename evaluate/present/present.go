// Package present makes the report of an evaluation: every value, limit, caution,
// study and error as the text that a builder reads.
//
// [Report] is its verb, [Values] that for the quantities alone. Whoever shows a report formats no number by itself.
package present

import (
	"path"
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// Values presents the quantities and nothing else.
func Values(w *working.Evaluation) *report.Report {
	p := newPresenter(w)
	for _, d := range w.Program.Main.Defs {
		switch d.Body.(type) {
		case *program.Value, *program.Study:
			p.value(d)
		}
	}
	return p.out
}

func newPresenter(w *working.Evaluation) *presenter {
	main := w.Source.Main
	return &presenter{w: w, out: &report.Report{Sheet: main.Name, Blocks: make([]report.Block, len(main.Blocks)), Asked: main.AskedBy(w.Source.Inputs[main.Name].Tree)}}
}

// Report presents what has been evaluated, and what could not be.
func Report(w *working.Evaluation) *report.Report {
	p := newPresenter(w)
	p.room()
	for _, d := range w.Program.Main.Defs {
		p.present(d)
	}
	p.charts()
	shown, problems := inline(w)
	p.out.Inline, p.out.Errors = shown, append(p.out.Errors, problems...)
	p.listRows()
	p.cautions(cautions(w))
	p.problems()
	p.notes()
	p.out.Uses, p.out.UsedLimits = uses(w.Program), usedLimits(w)
	p.overviews()
	return p.out
}

// room makes room for all quantities at once: they are many, and large.
func (p *presenter) room() {
	count := 0
	for _, d := range p.w.Program.Main.Defs {
		if record, ok := p.w.Machine.Value(d).(library.Record); ok {
			count += numbersIn(record)
		} else {
			count++ // one that waits is shown as one, whatever it would hold
		}
	}
	p.out.Quantities = make([]report.Quantity, 0, count)
}

// numbersIn is how many quantities a record is shown as, at most.
func numbersIn(record library.Record) (count int) {
	for _, v := range record {
		if inner, ok := v.(library.Record); ok {
			count += numbersIn(inner)
		} else if isScalar(v) {
			count++
		}
	}
	return count
}

// A presenter puts what is presented into the report and its blocks.
type presenter struct {
	w     *working.Evaluation
	out   *report.Report
	rough roughness
	short shortNames
	rows  []row

	medians []string // the quantities that stand there by the median of their draws
	judged  bool     // the rule of agreement has been said
}

func (p *presenter) present(d *program.Def) {
	state, _ := p.w.State(d)
	switch b := d.Body.(type) {
	case *program.Value, *program.Study:
		p.value(d)
	case *program.Limit:
		p.limit(limit(p.w, d, b))
	case *program.Measurement:
		if state != report.Failed {
			p.measured(d, b)
		}
	case *program.Show:
		p.shown(d, b)
	case *program.Budget:
		if state != report.Failed {
			p.addTable(d.Block, budget(p.w, d))
		}
	}
}

// measured adds to the block's table of measurements; the rule by which they are
// judged stands below the first.
func (p *presenter) measured(d *program.Def, b *program.Measurement) {
	t := measuredTable(&p.out.Blocks[d.Block], d)
	if measured(p.w, t, d, b) && !p.judged {
		t.Details, p.judged = append(t.Details, agreement), true
	}
}

func (p *presenter) add(q report.Quantity) {
	p.out.Quantities = append(p.out.Quantities, q)
	if q.Headline {
		p.list(q, false)
	}
}

func (p *presenter) addTable(block int, t report.Table) {
	b := &p.out.Blocks[block]
	b.Tables = append(b.Tables, t)
}

func (p *presenter) limit(l report.Limit) {
	p.out.Limits = append(p.out.Limits, l)
	if l.State != report.Failed {
		b := &p.out.Blocks[l.Block]
		b.Limits = append(b.Limits, l)
	}
	if l.State == report.Evaluated && !l.Holds {
		p.out.Cautions = append(p.out.Cautions, broken(l))
	}
}

// closing is said once a sheet that raises a caution on more than its own limits.
const closing = "Makers' sheets, local rules and licensed practice come first. Why: `inkwing explain cautions`."

// cautions puts findings into the report, and into the blocks what they come to.
func (p *presenter) cautions(list []report.Caution) {
	p.out.Cautions = append(p.out.Cautions, list...)
	last := -1
	for _, c := range once(p.out.Cautions) {
		b := &p.out.Blocks[c.Block]
		b.Cautions = append(b.Cautions, c)
		if c.Kind != report.OfLimit && c.Level > model.Advice {
			last = max(last, c.Block)
		}
	}
	if last >= 0 {
		p.out.Blocks[last].Closing = closing
	}
}

func (p *presenter) charts() {
	list, problems := charts(p.w)
	for _, c := range list {
		b := &p.out.Blocks[c.block]
		b.Charts = append(b.Charts, c.chart)
	}
	p.out.Errors = append(p.out.Errors, problems...)
}

// problems puts each error into the block where the builder reads it.
func (p *presenter) problems() {
	at := newPlace(p.w)
	list := append([]message.Diagnostic{}, p.w.Program.Problems...)
	list = append(list, p.out.Errors...)
	p.out.Errors = message.Sort(calls(p.w, append(list, at.faults()...)), at.sameLine)
	for _, d := range p.out.Errors {
		block, line := at.whereRead(d)
		if block < len(p.out.Blocks) {
			b := &p.out.Blocks[block]
			b.Errors = append(b.Errors, report.Failure{Line: line, Diagnostic: d})
		}
	}
}

// notes says once a sheet, where it first arises, what intervals may mislead about,
// and where the draws statement stands what was drawn.
func (p *presenter) notes() {
	first := true
	hidden := map[string]bool{}
	if len(p.rough.list) > 0 {
		hidden = p.hidden()
	}
	for _, r := range p.rough.list {
		names := slices.DeleteFunc(slices.Clone(r.names), func(name string) bool { return hidden[name] })
		if len(names) > 0 {
			b := &p.out.Blocks[r.first(names)]
			b.Notes = append(b.Notes, r.note(p.w, names, first))
			first = false
		}
	}
	for _, stmt := range p.w.Program.Main.Statements() {
		if x, ok := stmt.(*syntax.Draws); ok {
			b := &p.out.Blocks[x.Block]
			b.Notes = append(b.Notes, drawNote(p.w)+medianNote(p.medians))
		}
	}
}

// uses names all sheets and files used, directly or not.
func uses(x *program.Program) (list []string) {
	seen := map[string]bool{}
	for _, s := range x.Sheets {
		for _, name := range s.UsesOrder {
			if !seen[name] {
				seen[name] = true
				list = append(list, name)
			}
		}
	}
	return list
}

// usedLimits are the limits of the sheets that this one uses, but for those that it
// sets itself as well.
func usedLimits(w *working.Evaluation) (list []report.Limit) {
	own := ownLimits(w)
	for _, d := range w.Program.Defs {
		b, isLimit := d.Body.(*program.Limit)
		if !isLimit || d.Sheet == w.Program.Main || own[boundIn(w, d)] {
			continue
		}
		l := limit(w, d, b)
		l.Of = usedAs(w, d.Sheet)
		list = append(list, l)
	}
	return list
}

// ownLimits are the bounds that the sheet sets itself, as it writes them.
func ownLimits(w *working.Evaluation) map[string]bool {
	own := map[string]bool{}
	for _, d := range w.Program.Main.Defs {
		if program.Is[*program.Limit](d) {
			own[boundIn(w, d)] = true
		}
	}
	return own
}

// usedAs is the name under which a sheet is used, or its file's where others use it.
func usedAs(w *working.Evaluation, s *program.Sheet) string {
	if under, ok := w.Program.Main.Under(s); ok {
		return under
	}
	return path.Base(s.Name)
}

// text is what the builder wrote at a span of the sheet.
func text(w *working.Evaluation, at message.Span) string { return w.Source.Main.Text(at) }

// textIn is what the builder wrote at a span of a sheet that is used.
func textIn(w *working.Evaluation, s *program.Sheet, at message.Span) string {
	return w.Source.Sheets[s.Name].Text(at)
}

// digits is how many a name of the sheet is shown with.
func digits(w *working.Evaluation, name string) int { return show.Digits(w.Program.Main, name) }
