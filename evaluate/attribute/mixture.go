package attribute

import (
	"inkwing/evaluate/check"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// mixed evaluates the sheet with those elements as they stand now, the others as
// they stood, and gives the numbers of its quantities. Only nominal values are
// compared: intervals are not carried through.
func (t *tracer) mixed(isNew func(i int) bool) map[string]float64 {
	main := t.now.w.Source.Main.Name
	inputs := map[string]*check.Input{}
	use := func(from, path string) (*check.Input, error) {
		name, err := t.usedBy(working.Use{From: from, Path: path})
		if err != nil {
			return nil, err
		}
		if inputs[name] == nil {
			inputs[name] = t.mix(name, isNew)
		}
		return inputs[name], nil
	}
	w := &working.Evaluation{
		Source:  working.NewSource(&sheet.Sheet{Name: main}, nil),
		Program: check.Check(t.ctx, *t.mix(main, isNew), use),
	}
	w.EvaluateNominal(t.ctx)
	return w.Numbers()
}

// usedBy is the sheet that a use line names, in whichever edition it stands. One
// that neither could load fails as it does there.
func (t *tracer) usedBy(line working.Use) (string, error) {
	for _, e := range []edition{t.now, t.old} {
		if name, ok := e.w.Source.Found[line]; ok {
			return name, nil
		}
	}
	_, err := t.now.w.Source.Load(line)
	return "", err
}

// mix is a sheet made of both editions. Only what gives values is kept.
func (t *tracer) mix(name string, isNew func(int) bool) *check.Input {
	old, now := t.old.w.Source.Inputs[name], t.now.w.Source.Inputs[name]
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
