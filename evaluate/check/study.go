package check

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// What a study may vary at once.
const (
	maxVary = 2
	maxTune = 3
)

// study checks a vary, adjust or tune, that of a definition or a statement by
// itself.
func (a *analysis) study(d *program.Def, s *program.Study) {
	c := a.checker(d)
	var bracket *syntax.Unit
	if x, named := d.Stmt.(*syntax.Definition); named {
		bracket = x.Unit
	}
	unit, has := c.bracket(bracket)
	e := syntax.StudyOf(d.Stmt)
	var node program.Node
	if !c.failed {
		node = c.study(e)
	}
	if node != nil && has && c.shownIn(node, e, unit) == nil {
		node = nil
	}
	c.finish()
	if node == nil {
		return
	}
	d.Type, s.Node, s.Unit = node.Type(), node, unit
	if over := variables(node); !has && len(over) == 1 {
		s.Unit = over[0].Def.Written()
	}
}

// variables are those whose value a study is; none for a table.
func variables(n program.Node) []program.Variable {
	switch x := n.(type) {
	case *program.Solve:
		return []program.Variable{x.Over}
	case *program.Optimise:
		return x.Over
	}
	return nil
}

func (c *checker) study(e syntax.Expr) program.Node {
	switch x := e.(type) {
	case *syntax.Vary:
		return c.vary(x)
	case *syntax.Adjust:
		return c.adjust(x)
	case *syntax.Tune:
		return c.tune(x)
	}
	panic("check: no study")
}

func (c *checker) vary(x *syntax.Vary) program.Node {
	over, ok := c.overs("vary", x.Over, maxVary, "leave the others at their values")
	if !ok {
		return nil
	}
	t := &program.Table{Keyed: len(over) == 1 && isText(over[0].Column())}
	for i := range over {
		if !c.steps(x.Over[i], &over[i]) {
			return nil
		}
		t.Columns = append(t.Columns, program.Field{Name: column(over[i].Name), Type: over[i].Column(), Unit: over[i].Def.Written()})
	}
	outputs := make([]program.Output, len(x.Outputs))
	for i, o := range x.Outputs {
		if outputs[i], ok = c.output(o, t); !ok {
			return nil
		}
	}
	return &program.Vary{Typed: typed(x.Span, t), Def: c.def, Over: over, Outputs: outputs}
}

// column is the name of a result's column: ride.time becomes ride_time, and
// store(series) store_series.
func column(name string) string {
	return strings.Join(strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(".()[]\"- ", r) }), "_")
}

func isText(t program.Type) bool {
	_, ok := t.(program.Text)
	return ok
}

// output checks one output and adds its column.
func (c *checker) output(o syntax.Output, t *program.Table) (program.Output, bool) {
	name, _ := syntax.Dotted(o.Of)
	out := program.Output{Name: name, Node: c.expr(o.Of)}
	if out.Node == nil || !c.single(o.Of, out.Node) {
		return out, false
	}
	if program.IndexOf(t.Columns, column(name)) >= 0 {
		c.fail(o.Of.Place(), "the column "+message.Quote(column(name))+" stands twice", "every variable has its column already; name each output once")
		return out, false
	}
	if unit, has := c.bracket(o.Unit); has {
		if c.failed || c.shownIn(out.Node, o.Of, unit) == nil {
			return out, false
		}
		out.Unit = unit
	}
	t.Columns = append(t.Columns, program.Field{Name: column(name), Type: out.Node.Type(), Unit: out.Unit})
	return out, true
}

// single sees that a value has one cell's room.
func (c *checker) single(e syntax.Expr, n program.Node) bool {
	name, _ := syntax.Dotted(e)
	switch t := n.Type().(type) {
	case *program.Record:
		c.fail(e.Place(), message.Quote(name)+" is "+t.String()+": one value is wanted here", "name one of its fields: "+message.Quote(name+"."+t.Fields[0].Name))
	case program.List, *program.Table:
		c.fail(e.Place(), message.Quote(name)+" is "+t.String()+": one value is wanted here", "take `max(…)`, `min(…)` or one element of it, under a name of its own")
	default:
		return true
	}
	return false
}

func (c *checker) adjust(x *syntax.Adjust) program.Node {
	over, ok := c.over("adjust", x.Over)
	operands := c.operands(x.Until)
	if !ok || operands == nil {
		return nil
	}
	if over.In != nil {
		c.fail(x.Over.In.Place(), "adjust wants a range to look in", "write "+message.Quote(over.Name+" in 50 to 600"))
		return nil
	}
	if !c.condition(x, &over, operands) || !c.depends(x.Until, over.Name, operands...) {
		return nil
	}
	return &program.Solve{Typed: typed(x.Span, over.Def.Type), Def: c.def, Over: over, Op: x.Until.Ops[0], Left: operands[0], Right: operands[1]}
}

// condition sees that an adjust can be asked for what it is.
func (c *checker) condition(x *syntax.Adjust, over *program.Variable, operands []program.Node) bool {
	_, isNumber := operands[0].Type().(program.Quantity)
	op := x.Until.Ops[0]
	switch {
	case len(x.Until.Ops) > 1:
		c.fail(x.Until.Span, "adjust wants one comparison", "give the other bound as a `limit`")
	case isList(operands[0]) || isList(operands[1]):
		c.fail(x.Until.Span, "adjust compares single values, this is a list", "take min(…) or max(…) of it")
	case over.By == nil && !isNumber:
		c.fail(x.Until.Span, "a truth or text has no value between", "add a step to the range: "+message.Quote("by 1"))
	case over.By == nil && op != "==":
		c.fail(x.Until.OpsAt[0], "without a step, adjust finds where two values meet", "write `==`, or add a step to the range, "+message.Quote("by 1")+", for the first at which this holds")
	case over.By != nil && isNumber && (op == "==" || op == "!="):
		c.fail(x.Until.OpsAt[0], "a step hardly ever meets a value to the last digit", "write `>=` or `<=` for the first step at which that holds, or leave `by` out")
	default:
		return true
	}
	return false
}

func isList(n program.Node) bool {
	_, list := program.Element(n.Type())
	return list
}

func (c *checker) tune(x *syntax.Tune) program.Node {
	over, ok := c.overs("tune", x.Over, maxTune, "leave the others at their values")
	of := c.expr(x.Of)
	if !ok || of == nil || !c.single(x.Of, of) {
		return nil
	}
	if _, isNumber := of.Type().(program.Quantity); !isNumber {
		c.fail(x.Of.Place(), of.Type().String()+" has no least or most", "name a quantity")
		return nil
	}
	names := make([]string, len(over))
	for i := range over {
		names[i] = over[i].Name
	}
	if !c.depends(x.Of, strings.Join(names, "` or `"), of) {
		return nil
	}
	return &program.Optimise{Typed: typed(x.Span, choice(over)), Def: c.def, Over: over, Most: x.Most, Goal: of}
}

// choice is what a tune comes to: its variable's value, or a record of them.
func choice(over []program.Variable) program.Type {
	if len(over) == 1 {
		return over[0].Column()
	}
	r := &program.Record{}
	for _, o := range over {
		r.Fields = append(r.Fields, program.Field{Name: column(o.Name), Type: o.Column(), Unit: o.Def.Written()})
	}
	return r
}

// depends sees that what is looked for has to do with what is varied.
func (c *checker) depends(e syntax.Expr, names string, nodes ...program.Node) bool {
	if slices.ContainsFunc(nodes, c.def.Body.(*program.Study).Touches) {
		return true
	}
	c.fail(e.Place(), "this does not depend on "+message.Quote(names), c.dependsOn(nodes))
	return false
}

// dependsOn names the plain values that something is worked from.
func (c *checker) dependsOn(nodes []program.Node) string {
	names, all := c.changeable(nodes)
	switch {
	case len(names) > 0:
		return "it is worked from " + strings.Join(names, ", ")
	case !all:
		return "name what is worked from it"
	}
	return "it is worked from no plain value; name what is worked from one"
}
