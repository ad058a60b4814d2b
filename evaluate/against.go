package evaluate

import (
	"context"

	"inkwing/evaluate/check"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
)

// A Version is a sheet as it stands at some time, and the way to what it uses.
type Version struct {
	Sheet *Sheet
	Load  Loader
}

// Against works two versions of one sheet and compares them. How much of a
// quantity's change each cause has is found by working the sheet with only some
// of the causes: for up to [MaxAverage] of them by the average over all orders in
// which they may come in one by one (Shapley 1953), for more by the average of
// coming in first and coming in last, scaled to sum to the whole change. A
// quantity that cannot be worked with only some of them has no shares.
func Against(ctx context.Context, old, now Version) *report.Trace {
	t := &tracer{ctx: ctx, old: newEdition(ctx, old), now: newEdition(ctx, now)}
	t.find()
	c := &report.Trace{Comparison: report.Compare(t.old.out, t.now.out), Old: t.old.out, Now: t.now.out}
	for _, e := range t.elements {
		c.Causes = append(c.Causes, e.Cause)
	}
	c.Causes = append(c.Causes, t.apart...)
	t.share(c.Changed)
	return c
}

// An edition is a version that has been worked, with its sheets as they were
// read.
type edition struct {
	*worker
	main   check.Input
	inputs map[string]*check.Input // by sheet name, the main one too
}

func newEdition(ctx context.Context, v Version) *edition {
	w := newWorker(v.Sheet, v.Load)
	w.check()
	w.work(ctx)
	e := &edition{worker: w, inputs: map[string]*check.Input{}, main: w.input(v.Sheet)}
	for name, in := range w.loaded {
		e.inputs[name] = in
	}
	e.inputs[v.Sheet.Name] = &e.main
	return e
}

// sheetNamed is a checked sheet, nil for one that is data or not there.
func (e *edition) sheetNamed(name string) *program.Sheet {
	for _, s := range e.program.Sheets {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// A tracer works mixtures of two editions.
type tracer struct {
	ctx      context.Context
	old, now *edition
	elements []element
	apart    []report.Cause  // what is new or gone, and can stand in any mixture
	both     map[string]bool // those, by sheet and key
	at       map[string]int  // the element that has something, by sheet and key
	cellwise map[string]bool // tables told cell by cell, by sheet and key
}

// An element is what a cause is made of: a statement, a table or a cell, found
// by its key in its sheet.
type element struct {
	report.Cause
	sheet, key string
}

// mixed works the sheet with those elements as they stand now, the others as
// they stood, and gives the values of its quantities.
func (t *tracer) mixed(isNew func(i int) bool) map[string]any {
	blocks := make([]syntax.Block, max(len(t.old.sheet.Blocks), len(t.now.sheet.Blocks)))
	w := newWorker(&Sheet{Name: t.now.sheet.Name, Blocks: blocks}, nil)
	inputs := map[string]*check.Input{}
	use := func(from, path string) (*check.Input, error) {
		name, err := t.usedBy(useLine{from, path})
		if err != nil {
			return nil, err
		}
		if inputs[name] == nil {
			inputs[name] = t.mix(name, isNew)
		}
		return inputs[name], nil
	}
	w.program = check.Check(*t.mix(t.now.sheet.Name, isNew), use)
	// Only middles are compared: intervals are not carried through.
	w.machine = run.New(t.ctx, w.program, study.Work)
	w.machine.Run()
	values := map[string]any{}
	for _, q := range w.report().Quantities {
		values[q.Name] = q.Value
	}
	return values
}

// usedBy is the sheet that a use line names, in whichever edition it stands. One
// that neither could load fails as it does there.
func (t *tracer) usedBy(line useLine) (string, error) {
	for _, e := range []*edition{t.now, t.old} {
		if name, ok := e.found[line]; ok {
			return name, nil
		}
	}
	_, err := t.now.load.Load(line.from, line.path)
	return "", err
}

// mix is a sheet made of both editions. Only what gives values is kept.
func (t *tracer) mix(name string, isNew func(int) bool) *check.Input {
	old, now := t.old.inputs[name], t.now.inputs[name]
	if old == nil || now == nil {
		if now == nil {
			return old
		}
		return now
	}
	takeNew := func(key string) bool {
		i, differs := t.at[name+"\x00"+key]
		return !differs || isNew(i)
	}
	in := &check.Input{Name: name, Unread: append(append([]string{}, old.Unread...), now.Unread...)}
	cellwise := func(key string) bool { return t.cellwise[name+"\x00"+key] }
	in.Tables = mixTables(old.Tables, now.Tables, takeNew, cellwise)
	if old.Tree != nil && now.Tree != nil {
		both := func(key string) bool { return t.both[name+"\x00"+key] }
		in.Tree = &syntax.Tree{File: name, Statements: mixStatements(old.Tree, now.Tree, takeNew, both)}
	}
	return in
}

// mixStatements takes each statement from one of two trees.
func mixStatements(old, now *syntax.Tree, takeNew, both func(string) bool) []syntax.Statement {
	var list []syntax.Statement
	for _, s := range now.Statements {
		if key := statementKey(s); key != "" && (takeNew(key) || both(key)) {
			list = append(list, s)
		}
	}
	for _, s := range old.Statements {
		if key := statementKey(s); key != "" && (!takeNew(key) || both(key)) {
			list = append(list, s)
		}
	}
	return list
}

// statementKey is under what a statement that gives values is found; empty for
// any other.
func statementKey(s syntax.Statement) string {
	switch x := s.(type) {
	case *syntax.Definition:
		return "value " + x.Name.Name
	case *syntax.Function:
		return "function " + x.Name.Name
	case *syntax.Use:
		return "use " + x.Under()
	}
	return ""
}

// mixTables takes each table from one of two lists, or its cells.
func mixTables(old, now []*syntax.Table, takeNew, cellwise func(string) bool) []*syntax.Table {
	var list []*syntax.Table
	for _, b := range now {
		switch {
		case !takeNew(tableKey(b)):
			continue
		case cellwise(tableKey(b)):
			list = append(list, mixCells(tableNamed(old, b.Name.Name), b, takeNew))
		default:
			list = append(list, b)
		}
	}
	for _, a := range old {
		if !takeNew(tableKey(a)) {
			list = append(list, a)
		}
	}
	return list
}

func mixCells(a, b *syntax.Table, takeNew func(string) bool) *syntax.Table {
	mixed := *b
	mixed.Rows = make([][]syntax.Cell, len(b.Rows))
	for i, row := range b.Rows {
		mixed.Rows[i] = append([]syntax.Cell{}, row...)
		for j := range row {
			if !takeNew(cellKey(b, i, j)) {
				mixed.Rows[i][j].Text = a.Rows[i][j].Text
			}
		}
	}
	return &mixed
}
