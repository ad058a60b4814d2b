package check

import (
	"context"
	"maps"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// Check finds out what a sheet and all it uses mean. Problems of used sheets
// are told once, at the use line of the main sheet. When the context is done, what is
// left is not looked at: nobody is to use what comes out then.
func Check(ctx context.Context, main Input, load Load) *program.Program {
	a := &analysis{
		ctx:     ctx,
		Program: &program.Program{}, load: load, sheets: map[*program.Sheet]*sheet{}, byName: map[string]*sheet{},
		cells: map[*program.Def]map[message.Span]*program.Def{},
		keys:  map[*program.Rows][]string{}, places: map[*program.Field]map[string]int{}, measured: map[*program.Def]bool{},
		paramPlaces: map[*syntax.Param]map[string]int{},
		called:      map[*program.Def]bool{}, failing: map[*program.Def]int{}, exhausted: map[*program.Def]bool{},
	}
	a.Main = a.sheet(main).Sheet
	a.addresses()
	a.correlations()
	a.order()
	a.boundReach()
	for _, id := range a.Graph.Order() {
		a.define(a.Defs[id])
	}
	a.uncalled()
	a.digits()
	a.gather()
	return a.Program
}

// define gives a definition its type and what its body holds, or says why it has
// none.
func (a *analysis) define(d *program.Def) {
	if a.stopped(d); d.Failed {
		return
	}
	switch b := d.Body.(type) {
	case *program.Data:
		a.readTable(d, b)
	case *program.Cell:
		a.cell(d, b)
	case *program.Argument:
		a.argument(d, b)
	case *program.Deviation:
		d.Type = program.Number
	case *program.Value:
		a.value(d, b, d.Stmt.(*syntax.Definition))
		b.Settle()
		a.boundValues(d)
	case *program.Study:
		a.study(d, b)
	case *program.Limit:
		a.limit(d, b, d.Stmt.(*syntax.Limit))
	case *program.Measurement:
		a.measurement(d, b, d.Stmt.(*syntax.Measured))
	case *program.Budget:
		a.budget(d, b, d.Stmt.(*syntax.Budget))
	case *program.Show:
		a.show(d, b, d.Stmt.(*syntax.Show))
	case *program.Chart:
		a.chart(d, b, d.Stmt.(*syntax.Chart))
	case *program.Function: // checked at each call
	default:
		panic("check: a definition of no kind")
	}
}

// over reports whether the time of the check is up.
func (a *analysis) over() bool { return a.ctx.Err() != nil }

// stopped fails a definition that the check did not come to in time, and says so of
// the first.
func (a *analysis) stopped(d *program.Def) {
	if !a.over() {
		return
	}
	if !a.late {
		a.fail(d, d.Place, syntax.Stopped, "")
	}
	a.late, d.Failed = true, true
}

// maxValues bounds the values of a sheet with all that it uses, each field of a record
// counted.
const maxValues = 50_000

// boundValues says once that there are more values than can be shown. What stands
// behind that is not worked either.
func (a *analysis) boundValues(d *program.Def) {
	before := a.values
	if a.values += fields(d.Type); a.values <= maxValues {
		return
	}
	if before <= maxValues {
		a.fail(d, d.Place, "there are more than 50,000 values here, each field of a record counted", "split the worksheet, and let one part use the other")
	}
	d.Failed = true
}

// fields counts the values that a type has, those of records in it too.
func fields(t program.Type) int {
	record, ok := t.(*program.Record)
	if !ok {
		return 1
	}
	n := 0
	for _, f := range record.Fields {
		n += fields(f.Type)
	}
	return n
}

// finish tells the definition how its checking ended.
func (c *checker) finish() {
	switch {
	case c.failed:
		c.def.Failed = true
	case c.waits != "":
		c.def.Waits = c.waits
	}
}

// uncalled checks the functions that nobody calls, as far as their parameters
// say what they are.
func (a *analysis) uncalled() {
	for _, s := range a.Sheets {
		for _, f := range a.sheets[s].functions {
			if !a.over() && !a.called[f] && !f.Failed {
				a.checkAlone(f)
			}
		}
	}
}

// digits sees that digits statements name something.
func (a *analysis) digits() {
	for _, sheet := range a.Sheets {
		s := a.sheets[sheet]
		for _, n := range s.digitsNames {
			first, _, _ := strings.Cut(n.Name, ".")
			if s.Names[first] == nil && s.Uses[first] == nil && !s.unread[first] {
				s.fail(n.Span, "no quantity "+message.Quote(first)+" here", a.checker(&program.Def{Sheet: sheet}).nearest(first))
			}
		}
	}
}

// gather collects the problems of the main sheet, and of used ones at the use.
func (a *analysis) gather() {
	a.Problems = a.Main.Problems
	for _, stmt := range a.Main.Statements() {
		x, ok := stmt.(*syntax.Use)
		if !ok {
			continue
		}
		if used := a.Main.Uses[x.Under()]; used != nil {
			a.tellUsed(x, used)
		}
	}
}

// tellUsed says at a use line that the used sheet has errors, the first of them.
func (a *analysis) tellUsed(x *syntax.Use, used *program.Sheet) {
	for _, s := range reachable(used, map[*program.Sheet]bool{a.Main: true}) {
		if len(s.Problems) == 0 {
			continue
		}
		first := s.Problems[0]
		for _, d := range s.Problems {
			if d.Span.Start < first.Span.Start {
				first = d
			}
		}
		a.Problems = append(a.Problems, message.Diagnostic{
			Span:    x.Path.Span,
			Summary: message.Quote(x.Path.Value) + " has errors: " + first.Summary,
			Hint:    join("mend that worksheet first", first.Hint),
			Notes:   []message.Note{{Span: first.Span, Text: "the first is here"}},
		})
		return
	}
}

func reachable(s *program.Sheet, seen map[*program.Sheet]bool) []*program.Sheet {
	if seen[s] {
		return nil
	}
	seen[s] = true
	list := []*program.Sheet{s}
	for _, name := range slices.Sorted(maps.Keys(s.Uses)) {
		list = append(list, reachable(s.Uses[name], seen)...)
	}
	return list
}
