package present

import (
	"cmp"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// Inputs are all that can be changed in a sheet and in those that it uses, each
// sheet's in the order of its file, the sheet's own first. Nothing needs to have been
// evaluated.
func Inputs(w *working.Evaluation) []report.Input {
	l := &lister{w: w}
	for _, d := range w.Program.Defs {
		if d.Name == "" || d.Sheet != w.Program.Main && d.Shown(w.Program.Main) == d.Name {
			continue // of a sheet that another one uses, which no address reaches
		}
		switch b := d.Body.(type) {
		case *program.Value:
			l.definition(d, d.Stmt.(*syntax.Definition))
		case *program.Data:
			l.table(d, b)
		}
	}
	main := w.Program.Main.Name
	slices.SortStableFunc(l.list, func(a, b report.Input) int {
		return cmp.Or(cmp.Compare(order(a.Path, main), order(b.Path, main)), cmp.Compare(a.Path, b.Path), cmp.Compare(a.Span.Start, b.Span.Start))
	})
	return l.list
}

func order(path, main string) int {
	if path == main {
		return 0
	}
	return 1
}

// A lister gathers inputs.
type lister struct {
	w     *working.Evaluation
	reach reach.Finder
	list  []report.Input
}

// definition adds a plain value, or what is plain in its calls.
func (l *lister) definition(d *program.Def, x *syntax.Definition) {
	name := d.Shown(l.w.Program.Main)
	if d.IsInput() || d.Type == nil && syntax.Plain(x.Value) {
		in := report.Input{Address: name, Kind: report.PlainValue, Block: d.Block, Note: x.Note}
		l.add(d, in, x.Value, unitOf(x.Unit))
		return
	}
	own := func(name string) *syntax.Function { return functionIn(d.Sheet, name) }
	for _, a := range l.reach.Read(x.Value, own) {
		if a.Path != "" && a.Plain() {
			in := report.Input{Address: name + "(" + a.Path + ")", Kind: report.InCall, Block: d.Block, Choices: words(a, own)}
			l.add(d, in, a.Arg.Value, units.Unit{})
		}
	}
}

// functionIn is a function of a sheet's own, nil for none.
func functionIn(s *program.Sheet, name string) *syntax.Function {
	if d := s.Functions[name]; d != nil {
		return d.Body.(*program.Function).Stmt
	}
	return nil
}

// words are those that an argument knows.
func words(a *reach.Argument, own reach.Functions) []string {
	f, ok := library.Lookup(a.Func)
	if !ok || own(a.Func) != nil {
		return nil
	}
	i := slices.IndexFunc(f.Params, func(p library.Param) bool { return p.Name == a.Name })
	return f.Params[i].Shape.Values
}

// add adds what stands at an expression, a bare number in that unit.
func (l *lister) add(d *program.Def, in report.Input, x syntax.Expr, unit units.Unit) {
	in.Path, in.Span = d.Sheet.Name, x.Place()
	in.Text = l.w.Source.Sheets[d.Sheet.Name].Text(in.Span)
	if row, ok := x.(*syntax.Index); ok {
		in.Choices = l.keys(d, row)
	}
	fill(&in, x, unit)
	l.list = append(l.list, in)
}

// fill puts in what an expression comes to.
func fill(in *report.Input, x syntax.Expr, unit units.Unit) {
	switch x := x.(type) {
	case *syntax.Paren:
		fill(in, x.X, unit)
	case *syntax.Uncertain:
		if x.Value != nil {
			fill(in, x.Value, unit)
		}
	case *syntax.Text:
		in.Value = x.Value
	case *syntax.Truth:
		in.Value = x.Value
	case *syntax.Number:
		if x.Unit != nil {
			unit = unitOf(x.Unit)
		}
		in.Digits, in.Unit, in.Value = x.Digits, unit, x.Value
		if !unit.IsZero() {
			in.Value = unit.ToSI(x.Value)
		}
	}
}

// unitOf is a unit as written, the zero unit for none and for what is none.
func unitOf(x *syntax.Unit) units.Unit {
	if x == nil {
		return units.Unit{}
	}
	u, err := units.Parse(x.Text)
	if err != nil {
		return units.Unit{}
	}
	return u
}

// keys are those of the table from which a row is picked.
func (l *lister) keys(d *program.Def, x *syntax.Index) []string {
	name, _ := syntax.Dotted(x.X)
	table := d.Sheet.Names[name]
	if used, ok := x.X.(*syntax.Field); ok {
		under, _ := syntax.Dotted(used.X)
		if s := d.Sheet.Uses[under]; s != nil {
			table = s.Names[used.Name.Name]
		}
	}
	if table == nil || table.Rows() == nil || table.Rows().Keys == nil || table.Rows().Len() > program.MaxShown {
		return nil
	}
	var list []string
	for i := range table.Rows().Len() {
		key, _ := table.Rows().Cell(i, 0).(string)
		list = append(list, key)
	}
	return list
}

// mostListed is how many cells a file of data may have that is listed: a list of parts,
// and not what a meter wrote. One of a longer file is changed by whoever knows its address.
const mostListed = 1000

// table adds the cells that are typed, but for the keys of its rows.
func (l *lister) table(d *program.Def, data *program.Data) {
	t := data.Source
	if len(t.Problems) > 0 || reach.IsReadings(t, d.Sheet.Name) && (data.Rows == nil || len(t.Rows)*len(t.Head) > mostListed) {
		return
	}
	heads, name := t.Headings(), d.Shown(l.w.Program.Main)
	for i, row := range t.Rows {
		key := data.RowKey(i)
		for k, cell := range row {
			text, numbers := t.ColumnUnit(k)
			if cell.Worked != nil || k == 0 && !numbers {
				continue
			}
			in := report.Input{Address: name + "[" + key + "]." + heads[k], Kind: report.InCell, Path: cell.Span.File, Block: -1, Span: cell.Span, Text: cell.Text}
			if fillCell(&in, cell, text, numbers); data.HasCommas(k) {
				fillComma(&in, cell, text)
			}
			l.list = append(l.list, in)
		}
	}
}

// fillComma puts in what a number with a decimal comma comes to.
func fillComma(in *report.Input, cell syntax.Cell, unit string) {
	cell.Text = strings.Replace(cell.Text, ",", ".", 1)
	fillCell(in, cell, unit, true)
	in.Digits = message.Span{} // they cannot be taken apart as others are
}

// fillCell puts in what stands in a cell, a bare number in the unit of its heading.
func fillCell(in *report.Input, cell syntax.Cell, unit string, numbers bool) {
	switch {
	case reach.IsUnknown(cell):
	case !numbers:
		in.Value = cell.Text
	default:
		if x, problem := syntax.ParseValue(cell.Span.File, cell.Text, cell.Span.Start); problem == nil {
			fill(in, x, unitOf(&syntax.Unit{Text: unit}))
		}
		if len(cell.Text) != cell.Span.End-cell.Span.Start {
			in.Digits = message.Span{} // Markdown stands among them
		}
	}
}
