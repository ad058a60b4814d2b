package evaluate

import (
	"context"
	"regexp"
	"slices"
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
)

// Work works a sheet: parses it and what it uses, checks all, runs what can be
// run, and reports. It never fails: what is wrong stands in the report.
func Work(ctx context.Context, sheet *Sheet, load Loader) *report.Report {
	w := newWorker(sheet, load)
	w.check()
	return w.work(ctx)
}

// check reads the sheet and what it uses, and finds out what they mean.
func (w *worker) check() { w.program = check.Check(w.input(w.sheet), w.use) }

// work runs what can be run, and reports.
func (w *worker) work(ctx context.Context) *report.Report {
	w.machine = run.New(ctx, w.program, study.Work)
	w.machine.Run()
	w.sure = study.Propagate(w.machine, w.program, w.wanted())
	if draws := w.program.Main.Draws; draws > 0 {
		w.drawFault = w.sure.Draw(w.machine, w.wanted(), draws)
	}
	return w.report()
}

// wanted are the definitions whose spread is shown: the sheet's own, and those
// of used ones that stand in its prose.
func (w *worker) wanted() []int {
	var ids []int
	for _, d := range w.program.Main.Defs {
		if !program.Is[*program.Chart](d) { // which only shows what others came to
			ids = append(ids, d.ID)
		}
	}
	if w.everything {
		return w.usedToo(ids)
	}
	for _, in := range w.sheet.Inline {
		if d, _, ok := w.named(in.Name); ok && d.Sheet != w.program.Main {
			ids = append(ids, d.ID)
		}
	}
	return ids
}

// usedToo adds the quantities of used sheets.
func (w *worker) usedToo(ids []int) []int {
	for _, d := range w.program.Defs {
		if d.Sheet != w.program.Main && isQuantity(d) {
			ids = append(ids, d.ID)
		}
	}
	return ids
}

// isQuantity reports whether a definition is a value, or the answer of a study.
func isQuantity(d *program.Def) bool {
	return program.Is[*program.Value](d) || program.Is[*program.Study](d)
}

// worker holds one working of a sheet.
type worker struct {
	sheet   *Sheet
	load    Loader
	loaded  map[string]*check.Input // by sheet name: each is read and parsed once
	found   map[useLine]string      // the sheet that each use names
	sheets  map[string]*Sheet       // those read, by name
	program *program.Program
	machine *run.Machine
	sure    *study.Uncertainty // nil if nothing is uncertain
	misled  []misled
	// drawFault is why the draws could not be made.
	drawFault error
	out       *report.Report
	// swap puts other statements or tables in place of some of a sheet's, before
	// it is checked; nil for a sheet as it stands.
	swap func(*check.Input)
	// everything asks for the spread of what used sheets work, too.
	everything bool
	// typed are changes by the name that messages give them: what a builder
	// typed, which stands in no file.
	typed map[string]Change
}

func newWorker(sheet *Sheet, load Loader) *worker {
	return &worker{
		sheet: sheet, load: load, loaded: map[string]*check.Input{},
		found: map[useLine]string{}, sheets: map[string]*Sheet{sheet.Name: sheet},
	}
}

// A useLine is a use statement's path and the sheet that says it.
type useLine struct{ from, path string }

func (w *worker) input(s *Sheet) check.Input {
	in := check.Input{Name: s.Name, Tables: s.Tables}
	in.Tree, in.Problems = syntax.Parse(s.Name, s.Blocks)
	in.Unread = unread(s, in.Problems, in.Tree.Conflicts)
	if w.swap != nil {
		w.swap(&in)
	}
	return in
}

// beginning is the name that a definition or function begins with.
var beginning = regexp.MustCompile(`^\s*([\pL_][\pL\pN_]*)`)

// unread are the names of the lines that could not be parsed, each found at the
// margin line of its statement.
func unread(s *Sheet, problems []message.Diagnostic, conflicts []message.Span) []string {
	var names []string
	for _, b := range s.Blocks {
		margin, name := 0, ""
		for i, l := range b.Lines {
			indent := len(l.Text) - len(strings.TrimLeft(l.Text, " \t"))
			if i == 0 {
				margin = indent
			}
			if m := beginning.FindStringSubmatch(l.Text); m != nil && indent <= margin {
				name = m[1]
			}
			wrong := slices.ContainsFunc(problems, func(p message.Diagnostic) bool {
				return l.Offset <= p.Span.Start && p.Span.Start <= l.Offset+len(l.Text)
			}) || slices.ContainsFunc(conflicts, func(at message.Span) bool {
				return at.Start <= l.Offset && l.Offset < at.End
			})
			if name != "" && wrong {
				names = append(names, name)
			}
		}
	}
	return names
}

// use loads what a sheet uses. A file without blocks and with one table is
// data: it has no tree.
func (w *worker) use(from, path string) (*check.Input, error) {
	s, err := w.load.Load(from, path)
	if err != nil {
		return nil, err
	}
	w.found[useLine{from, path}] = s.Name
	if in, ok := w.loaded[s.Name]; ok {
		return in, nil
	}
	w.sheets[s.Name] = s
	in := &check.Input{Name: s.Name, Tables: s.Tables}
	if !s.Data {
		*in = w.input(s)
	} else if w.swap != nil {
		w.swap(in)
	}
	w.loaded[s.Name] = in
	return in, nil
}

func (w *worker) report() *report.Report {
	w.out = &report.Report{Sheet: w.sheet.Name, Blocks: make([]report.Block, len(w.sheet.Blocks))}
	for _, d := range w.program.Main.Defs {
		switch b := d.Body.(type) {
		case *program.Value, *program.Study:
			w.value(d)
		case *program.Limit:
			w.limit(d, b)
		case *program.Measurement:
			w.measured(d, b)
		case *program.Budget:
			w.budget(d)
		}
	}
	w.charts()
	w.inline()
	w.cautions()
	w.problems()
	w.doubts()
	w.uses()
	return w.out
}

func (w *worker) uses() {
	seen := map[string]bool{}
	for _, s := range w.program.Sheets {
		for _, name := range s.UsesOrder {
			if !seen[name] {
				seen[name] = true
				w.out.Uses = append(w.out.Uses, name)
			}
		}
	}
}

// state says how far a definition came.
func (w *worker) state(d *program.Def) (report.State, string) {
	f := w.fault(d)
	switch waits := w.machine.Waits(d); {
	case !d.Failed && f != nil && w.waitsForCell(f):
		return report.Waiting, f.Cell
	case d.Failed || f != nil:
		return report.Failed, ""
	case waits != "":
		return report.Waiting, waits
	}
	return report.Evaluated, ""
}

// waitsForCell reports whether the reason of a fault is told at a cell, and not at
// the line that needs it.
func (w *worker) waitsForCell(f *run.Fault) bool {
	return f.Cell != "" && (f.Told || f.Span.File == w.sheet.Name)
}

// fault is why a definition could not be worked, or its spread.
func (w *worker) fault(d *program.Def) *run.Fault {
	if f := w.machine.Fault(d); f != nil || w.sure == nil {
		return f
	}
	return w.sure.Faults[d]
}
