package explain

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// A Line is a statement of a block with what it takes to set it as a formula. All
// texts are ready to be shown.
type Line struct {
	Tree    syntax.Statement
	Values  map[message.Span]string // nominal values, by the places of the names that they may stand for
	Symbols map[message.Span]string // letters of fields by the places of the fields; see OfSheet
	Calls   []LineCall              // of the library, from the outside in
	Step    *report.Step            // where a quantity comes from; nil for what defines none
}

// OfSheet is the symbol of a name behind that of a used sheet, which is no field.
const OfSheet = "·"

// A LineCall is a call of the library with what was given to it.
type LineCall struct {
	Span      message.Span
	Name      string
	Topic     string
	Doc       library.Doc
	Arguments []LineArgument
}

// A LineArgument is a parameter and what was given for it.
type LineArgument struct {
	Name  string
	Help  string
	Range string       // as the tag writes it: "[0,)"
	Text  string       // as written
	At    message.Span // where
	Shown string       // what it comes to, with its interval; empty for what is no single value
	Calls []LineCall
}

// Lines are the statements of each block of a sheet that was evaluated with all that
// it uses, and of which that report was made, with what their formulas hold. The
// steps are shared: what two quantities come from is one step, reached from both.
func Lines(w *working.Evaluation, r *report.Report) [][]Line {
	e := &explainer{w: w, report: r, shared: map[string]*report.Step{}}
	e.index()
	blocks := make([][]Line, len(r.Blocks))
	defs := map[syntax.Statement]*program.Def{}
	for _, d := range w.Program.Main.Defs {
		if d.Stmt != nil && !isPart(d) {
			defs[d.Stmt] = d
		}
	}
	for _, s := range w.Program.Main.Statements() {
		b := s.Common().Block
		blocks[b] = append(blocks[b], e.line(s, defs[s]))
	}
	return blocks
}

// isPart reports whether a definition is a part of another one's line.
func isPart(d *program.Def) bool {
	return program.Is[*program.Deviation](d) || program.Is[*program.Argument](d)
}

// index keeps the report's quantities by their names.
func (e *explainer) index() {
	e.byName = make(map[string]*report.Quantity, len(e.report.Quantities))
	for i := range e.report.Quantities {
		e.byName[e.report.Quantities[i].Name] = &e.report.Quantities[i]
	}
}

func (e *explainer) line(s syntax.Statement, d *program.Def) Line {
	l := Line{Tree: s, Values: map[message.Span]string{}, Symbols: map[message.Span]string{}}
	if d == nil {
		return l
	}
	for _, x := range formulas(s) {
		for _, r := range outside(d.Sheet, x) {
			if r.within || program.Is[*program.Function](r.def) {
				continue
			}
			if text, ok := e.nominal(r); ok {
				l.Values[r.at] = text
			}
		}
	}
	for _, x := range expressions(s) {
		e.ofSheets(d.Sheet, x, l.Symbols)
	}
	for _, n := range d.Body.Operands() {
		e.symbols(n, l.Symbols)
		l.Calls = append(l.Calls, e.libraryCalls(n)...)
	}
	if d.Name != "" {
		l.Step = e.step(reference{def: d})
	}
	return l
}

// formulas are the expressions of a statement in which values can be put.
func formulas(s syntax.Statement) []syntax.Expr {
	switch x := s.(type) {
	case *syntax.Definition:
		return []syntax.Expr{x.Value}
	case *syntax.Limit:
		return []syntax.Expr{x.Bound}
	}
	return nil
}

// expressions are all of a statement in which names may stand.
func expressions(s syntax.Statement) []syntax.Expr {
	switch x := s.(type) {
	case *syntax.Study:
		return []syntax.Expr{x.What}
	case *syntax.Function:
		return []syntax.Expr{x.Body}
	}
	return formulas(s)
}

// nominal is a reference's value without its interval, for the inside of a formula.
func (e *explainer) nominal(r reference) (string, bool) {
	t, value, ok := e.valueOf(r)
	if !ok || value == nil {
		return "", false
	}
	if q, found := e.byName[e.nameOf(r)]; found && r.row == nil && r.def.Sheet == e.w.Program.Main && q.State != report.Evaluated {
		return "", false
	}
	if _, isText := value.(string); isText {
		return "", false
	}
	return show.Value(t, value, e.unitOf(r, t), show.Digits(e.w.Program.Main, e.nameOf(r)))
}

// unitOf is the unit in which a reference's value is shown; the zero unit where a
// fitting one is chosen.
func (e *explainer) unitOf(r reference, t program.Type) units.Unit {
	if q, found := e.byName[e.nameOf(r)]; found && r.row == nil {
		return q.Unit
	}
	if len(r.fields) == 0 && r.row == nil {
		return r.def.Written()
	}
	if i := e.columnAt(r); i >= 0 {
		return r.def.Type.(*program.Table).Columns[i].Unit
	}
	return units.Unit{}
}

// symbols finds the letters of the fields that an expression names.
func (e *explainer) symbols(n program.Node, found map[message.Span]string) {
	switch x := n.(type) {
	case nil:
		return
	case *program.FieldOf:
		if r, ok := x.X.Type().(*program.Record); ok {
			if letter := r.Fields[x.Index].Symbol; letter != "" {
				found[x.Place()] = letter
			}
		}
	}
	for _, child := range program.Children(n) {
		e.symbols(child, found)
	}
}

// ofSheets finds the names behind those of used sheets.
func (e *explainer) ofSheets(s *program.Sheet, x syntax.Expr, found map[message.Span]string) {
	if field, ok := x.(*syntax.Field); ok {
		if name, ok := field.X.(*syntax.Name); ok && s.Names[name.Name] == nil && s.Uses[name.Name] != nil {
			found[field.Span] = OfSheet
		}
	}
	for _, child := range syntax.Children(x) {
		e.ofSheets(s, child, found)
	}
}

// libraryCalls are the calls of the library in an expression, from the outside in;
// those in an argument stand with it.
func (e *explainer) libraryCalls(n program.Node) (list []LineCall) {
	switch x := n.(type) {
	case nil:
		return nil
	case *program.Call:
		return []LineCall{e.libraryCall(x)}
	}
	for _, child := range program.Children(n) {
		list = append(list, e.libraryCalls(child)...)
	}
	return list
}

func (e *explainer) libraryCall(x *program.Call) LineCall {
	c := LineCall{Span: x.Place(), Name: x.Func.Name, Topic: x.Func.Topic, Doc: x.Func.Doc}
	for i, a := range x.Args {
		if a == nil {
			continue
		}
		p := x.Func.Params[i]
		c.Arguments = append(c.Arguments, LineArgument{
			Name: p.Name, Help: p.Help, Range: p.Range.Text, Text: e.w.Source.Main.Text(a.Place()),
			At: a.Place(), Shown: e.given(a), Calls: e.libraryCalls(a),
		})
	}
	return c
}

// given is what an argument comes to, where that is one value.
func (e *explainer) given(n program.Node) string {
	if _, fitted := n.(*program.Fit); fitted {
		return ""
	}
	if r, ok := e.referenceOf(n); ok {
		text, single := e.shown(r)
		if !single {
			return ""
		}
		return text
	}
	for _, id := range program.Refs(n) {
		if e.w.Machine.Value(e.w.Program.Defs[id]) == nil {
			return ""
		}
	}
	value, fault := e.w.Machine.Node(n)
	if fault != nil {
		return ""
	}
	text, single := show.Value(n.Type(), value, show.WrittenUnit(n), e.digits())
	if !single {
		return ""
	}
	return text
}

// referenceOf is the reference that a node is, if it is nothing else.
func (e *explainer) referenceOf(n program.Node) (reference, bool) {
	switch x := n.(type) {
	case *program.Ref:
		return reference{def: x.Def}, true
	case *program.FieldOf:
		r, ok := e.referenceOf(x.X)
		if !ok || r.row != nil {
			return reference{}, false
		}
		record, ok := x.X.Type().(*program.Record)
		if !ok {
			return reference{}, false
		}
		r.fields = append(r.fields, record.Fields[x.Index].Name)
		return r, true
	}
	return reference{}, false
}
