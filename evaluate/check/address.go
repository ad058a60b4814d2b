package check

import (
	"cmp"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/syntax"
)

// addresses gives each number that a what-if changes, and that has no name, a
// definition of its own: an argument of a call, a cell of a table. All others stay
// what they are, a part of the line in which they stand.
func (a *analysis) addresses() {
	for _, s := range slices.Clone(a.Sheets) {
		for _, stmt := range s.Statements() {
			if a.over() {
				return
			}
			for _, e := range changed(stmt) {
				a.find(a.sheets[s], e)
			}
		}
	}
}

// changed are the addresses of what a statement changes.
func changed(stmt syntax.Statement) []syntax.Expr {
	var list []syntax.Expr
	for _, s := range syntax.Sweeps(syntax.StudyOf(stmt)) {
		list = append(list, s.Of)
	}
	if d, ok := stmt.(*syntax.Definition); ok {
		if with, ok := d.Value.(*syntax.With); ok {
			for _, r := range with.Replaces {
				list = append(list, r.Of)
			}
		}
	}
	return list
}

// find gives an address its definition, or says why it has none.
func (a *analysis) find(s *sheet, e syntax.Expr) {
	var d *program.Def
	var trouble *reach.Trouble
	if x, ok := e.(*syntax.Argument); ok {
		d, trouble = a.argumentAt(s, x)
	} else if table, key, column, ok := reach.CellOf(e); ok {
		d, trouble = a.cellAt(s, table, key, column)
	}
	if trouble != nil {
		s.unreached[e] = trouble
	}
	if d != nil {
		s.stands[e] = d
	}
}

// meant is the definition that a name or a field of a sheet in use means.
func (s *sheet) meant(e syntax.Expr) *program.Def {
	switch x := e.(type) {
	case *syntax.Name:
		return s.Names[x.Name]
	case *syntax.Field:
		return s.throughUse(x, nil)
	}
	return nil
}

// argumentAt is the definition of an argument; nil for one of nothing that is known,
// about which the name says enough.
func (a *analysis) argumentAt(s *sheet, x *syntax.Argument) (*program.Def, *reach.Trouble) {
	owner := s.meant(x.Of)
	if owner == nil || owner.Failed {
		return nil, nil
	}
	stmt, ok := owner.Stmt.(*syntax.Definition)
	if !ok || syntax.StudyOf(stmt) != nil {
		return nil, &reach.Trouble{Summary: message.Quote(syntax.Source(x.Of)) + " is no call, and has no arguments", Hint: "name a quantity that is what a function gives"}
	}
	of := a.sheets[owner.Sheet]
	found, trouble := a.reach.Find(x, stmt.Value, of.function)
	if trouble != nil {
		return nil, trouble
	}
	if d := of.stands[found.Arg.Value]; d != nil {
		return d, nil
	}
	d := a.add(of, stmt, found.Arg.Value.Place(), &program.Argument{Value: found.Arg.Value})
	d.Name = owner.Name + "(" + found.Path + ")"
	of.stands[found.Arg.Value] = d
	return d, nil
}

// function is one of the builder's own, nil for none.
func (s *sheet) function(name string) *syntax.Function {
	if d := s.Functions[name]; d != nil {
		return function(d)
	}
	return nil
}

// cellAt is the definition of a cell that is typed.
func (a *analysis) cellAt(s *sheet, table, key syntax.Expr, column string) (*program.Def, *reach.Trouble) {
	d := s.meant(table)
	if d == nil {
		return nil, nil
	}
	data, ok := d.Body.(*program.Data)
	if !ok {
		return nil, &reach.Trouble{Summary: message.Quote(syntax.Source(table)) + " is no table of the page", Hint: "change a plain value that it is worked from"}
	}
	if len(data.Source.Problems) > 0 || len(data.Source.Head) == 0 {
		return nil, nil
	}
	row, at, trouble := a.reach.CellOfPage(data.Source, d.Sheet.Name, syntax.Source(table), key, column)
	if trouble != nil {
		return nil, trouble
	}
	if known := data.WorkedAt(row, at); known != nil {
		return known, nil
	}
	cell := a.add(a.sheets[d.Sheet], d.Stmt, data.Source.Rows[row][at].Span, &program.Cell{Table: d, Row: row, Column: at})
	cell.Name = d.Name + "[" + data.Source.RowKey(row) + "]." + column
	place, _ := slices.BinarySearchFunc(data.Worked, cell, func(x, y *program.Def) int {
		p, q := x.Body.(*program.Cell), y.Body.(*program.Cell)
		return cmp.Or(cmp.Compare(p.Row, q.Row), cmp.Compare(p.Column, q.Column))
	})
	data.Worked = slices.Insert(data.Worked, place, cell)
	return cell, nil
}

// argument checks an argument that has a definition of its own.
func (a *analysis) argument(d *program.Def, b *program.Argument) {
	c := a.checker(d)
	node := c.expr(b.Value)
	c.finish()
	if node != nil {
		d.Type, b.Node, b.Input = node.Type(), node, !isElement(node)
	}
}

// typedCell is what stands in a cell as its table was read.
func typedCell(d *program.Def, b *program.Cell, want program.Field) {
	rows := b.Table.Rows()
	value := rows.Cell(b.Row, b.Column)
	if _, unknown := value.(program.Unknown); unknown {
		d.Waits = b.Table.Name
		return
	}
	d.Type = want.Type
	b.Node = &program.Const{Typed: typed(d.Place, want.Type), Value: value, Unit: want.Unit}
	for _, cell := range rows.Uncertain {
		if cell.Row == b.Row && cell.Column == b.Column {
			b.Node = cell.Value
		}
	}
}

// address checks what a what-if changes.
func (c *checker) address(e syntax.Expr) program.Node {
	if t := c.sheet.unreached[e]; t != nil {
		c.fail(e.Place(), t.Summary, t.Hint)
		return nil
	}
	return c.expr(e)
}

// stand is a number that has a definition of its own, in the line where it stands or
// by its address. A mistake in it is one of the line, too.
func (c *checker) stand(d *program.Def, e syntax.Expr) program.Node {
	if arg, ok := d.Body.(*program.Argument); ok && arg.Value == e && d.Failed {
		c.failed = true
		return nil
	}
	return c.ref(d, e.Place(), d.Name)
}

// unreached is an address of what is not known, or an argument where none is changed.
func (c *checker) unreached(x *syntax.Argument) program.Node {
	if c.expr(x.Of) != nil {
		c.say(message.Diagnostic{Span: x.Span, Summary: message.Quote(syntax.Source(x.Of)) + " has no arguments", Hint: "name a quantity that is what a function gives"})
	}
	return nil
}

// insteadOf says what can be changed in the place of what is worked.
func (c *checker) insteadOf(n program.Node) string {
	names, all := c.changeable([]program.Node{n})
	switch {
	case len(names) > 0:
		return "replace one of those that it is worked from: " + strings.Join(names, ", ")
	case !all:
		return "replace a plain value that it is worked from"
	}
	return "give a number in it a name of its own, on a line above, and replace that"
}

// changeable are the plain values from which something is worked, numbers in the calls
// on the way too, the nearest first: not many, and all where nothing says otherwise,
// as where too much was looked at for the messages before.
func (c *checker) changeable(nodes []program.Node) (names []string, all bool) {
	w := &c.whole.instead
	w.begin(len(c.whole.Defs))
	for _, n := range nodes {
		w.add(program.Refs(n))
	}
	for next := 0; next < len(w.queue) && len(names) <= program.MaxNames; next++ {
		d := c.whole.Defs[w.queue[next]]
		if !w.looked.Look(1 + len(d.Dependencies)) {
			return nil, false
		}
		w.add(d.Dependencies)
		names = append(names, c.within(d)...)
	}
	if len(names) > program.MaxNames {
		names = append(names[:program.MaxNames:program.MaxNames], "…")
	}
	return names, true
}

// A reachWalk goes through definitions, each once. The next one uses its lists again, since as
// many lines may be in error as there are definitions.
type reachWalk struct {
	queue  []int
	seen   []int // by number: the walk that came there last, counted from 1
	number int
	looked message.Speller // bounds all of them together
}

func (w *reachWalk) begin(definitions int) {
	w.queue, w.number = w.queue[:0], w.number+1
	if len(w.seen) < definitions {
		w.seen = make([]int, definitions)
	}
}

func (w *reachWalk) add(ids []int) {
	for _, id := range ids {
		if w.seen[id] != w.number {
			w.seen[id] = w.number
			w.queue = append(w.queue, id)
		}
	}
}

// within are the plain value that a definition is, or those in its calls, not many.
func (c *checker) within(d *program.Def) (names []string) {
	name := d.Shown(c.sheet.Sheet)
	if d.IsInput() {
		return []string{message.Quote(name)}
	}
	x, ok := d.Stmt.(*syntax.Definition)
	if !ok || !program.Is[*program.Value](d) {
		return nil
	}
	s := c.whole.sheets[d.Sheet]
	for _, a := range c.whole.reach.Arguments(x.Value, s.own) {
		if len(names) > program.MaxNames {
			break
		}
		if a.Path != "" && a.Plain() && s.stands[a.Arg.Value] == nil {
			names = append(names, message.Quote(name+"("+a.Path+")"))
		}
	}
	return names
}
