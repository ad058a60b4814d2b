package explain

import (
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/show"
	"inkwing/evaluate/syntax"
)

// calls are the functions in a definition's formula, from the outside in.
func (e *explainer) calls(d *program.Def, x syntax.Expr) []report.Call {
	nodes := map[message.Span]program.Node{}
	callNodes(d.Node(), nodes)
	var list []report.Call
	var walk func(syntax.Expr)
	walk = func(x syntax.Expr) {
		if call, ok := x.(*syntax.Call); ok {
			if c, ok := e.called(d, call, nodes[call.Span]); ok && !again(c, list) {
				list = append(list, c)
			}
		}
		for _, child := range syntax.Children(x) {
			walk(child)
		}
	}
	walk(x)
	return list
}

// again reports whether a call tells nothing new: its function was said, and its
// arguments are written out in the formula.
func again(c report.Call, said []report.Call) bool {
	for _, a := range c.Arguments {
		if a.Shown != "" {
			return false
		}
	}
	return slices.ContainsFunc(said, func(s report.Call) bool { return s.Name == c.Name })
}

// callNodes finds the calls in a checked expression by their places; not those in
// the builder's own functions.
func callNodes(n program.Node, found map[message.Span]program.Node) {
	if n == nil {
		return
	}
	children := program.Children(n)
	switch x := n.(type) {
	case *program.Call:
		found[x.Place()] = n
	case *program.Let:
		found[x.Place()], children = n, x.Values
	}
	for _, child := range children {
		callNodes(child, found)
	}
}

func (e *explainer) called(d *program.Def, call *syntax.Call, n program.Node) (report.Call, bool) {
	c := report.Call{Name: call.Func.Name}
	sheet := e.w.Source.Sheets[d.Sheet.Name]
	switch x := n.(type) {
	case *program.Call:
		c.Summary, c.Formula, c.Defaults = x.Func.Doc.Summary, x.Func.Doc.Formula, e.defaults(x)
		for i, a := range x.Args {
			if a != nil {
				name := x.Func.Params[i].Name
				c.Arguments = append(c.Arguments, e.argument(sheet, name, a))
				c.Fields = append(c.Fields, e.fields(name, a)...)
			}
		}
		c.Put = e.put(d, x, c)
		if c.Put != "" {
			mark(c.Fields, x.Func.Doc.LetterList())
		}
	case *program.Let:
		c.Own, c.Summary = true, sheet.Text(d.Sheet.Functions[c.Name].Stmt.Place())
		for i, a := range x.Values {
			c.Arguments = append(c.Arguments, e.argument(sheet, x.Params[i].Name, a))
		}
	default:
		return c, false
	}
	return c, true
}

func (e *explainer) argument(sheet *sheet.Sheet, name string, n program.Node) report.Argument {
	a := report.Argument{Name: name, Text: sheet.Text(n.Place())}
	if written(n) {
		return a // it is written out already
	}
	for _, id := range program.Refs(n) {
		if e.w.Machine.Value(e.w.Program.Defs[id]) == nil {
			return a
		}
	}
	if value, fault := e.w.Machine.Node(n); fault == nil {
		if text, single := show.Value(n.Type(), value, show.WrittenUnit(n), e.digits()); single && text != a.Text {
			a.Shown = text
		}
	}
	return a
}

// fields are what a function reads of a record, with the values that are known.
func (e *explainer) fields(name string, n program.Node) (list []report.Argument) {
	fit, ok := n.(*program.Fit)
	if !ok || fit.Rows {
		return nil
	}
	value, fault := e.w.Machine.Node(fit)
	record, isRecord := value.(library.Record)
	if fault != nil || !isRecord {
		return nil
	}
	from := fit.Type().(*program.Record).Fields
	for i, p := range fit.Picks {
		if p.Index < 0 || record[i] == nil {
			continue
		}
		f := from[p.Index]
		if text, single := show.Value(f.Type, record[i], f.Unit, e.digits()); single {
			list = append(list, report.Argument{Name: name + "." + p.Param.Name, Shown: text})
		}
	}
	return list
}

// written reports whether a value is written out.
func written(n program.Node) bool {
	_, ok := program.Nominal(n).(*program.Const)
	return ok
}
