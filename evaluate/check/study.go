package check

import (
	"slices"
	"strings"

	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// What a study may vary at once.
const (
	maxVary = 2
	maxTune = 3
)

// MaxPoints is how many rows a vary or stepped tune may have.
const MaxPoints = 10_000

// checkStudy gives a definition, or a statement by itself, its vary, adjust or
// tune.
func (d *Def) checkStudy(p *Program, e syntax.Expr, bracket *syntax.Unit) {
	c := &checker{def: d, sheet: d.Sheet, program: p}
	unit, has := c.bracket(bracket)
	var node Node
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
	d.Node, d.Type, d.Unit = node, node.Type(), unit
	if over := variables(node); !has && len(over) == 1 {
		d.Unit = over[0].Def.Written()
	}
}

// variables are those whose value a study is; none for a table.
func variables(n Node) []Over {
	switch x := n.(type) {
	case *Adjust:
		return []Over{x.Over}
	case *Tune:
		return x.Over
	}
	return nil
}

// Written is the unit that a plain value is shown or written in, the zero unit
// for none.
func (d *Def) Written() units.Unit {
	if k, ok := middle(d.Node).(*Const); ok && d.Unit.IsZero() {
		return k.Unit
	}
	return d.Unit
}

func (c *checker) study(e syntax.Expr) Node {
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

func (c *checker) vary(x *syntax.Vary) Node {
	over, ok := c.overs("vary", x.Over, maxVary, "leave the others at their values")
	if !ok {
		return nil
	}
	t := &Table{Keyed: len(over) == 1 && isText(over[0].Column())}
	for i := range over {
		if !c.steps(x.Over[i], &over[i]) {
			return nil
		}
		t.Columns = append(t.Columns, Field{Name: column(over[i].Name), Type: over[i].Column(), Unit: over[i].Def.Written()})
	}
	outputs := make([]Out, len(x.Outputs))
	for i, o := range x.Outputs {
		if outputs[i], ok = c.output(o, t); !ok {
			return nil
		}
	}
	v := &Vary{Def: c.def, Over: over, Outputs: outputs}
	v.span, v.typ = x.Span, t
	return v
}

// column is the name of a result's column: ride.time becomes ride_time.
func column(name string) string { return strings.ReplaceAll(name, ".", "_") }

func isText(t Type) bool {
	_, ok := t.(Text)
	return ok
}

// Column is what a variable's column holds: its values, or the key or number of
// each row.
func (o Over) Column() Type {
	if _, isRow := o.Def.Type.(*Record); !isRow {
		return o.Def.Type
	}
	if t, ok := o.In.Type().(*Table); ok && t.Keyed {
		return Text{}
	}
	return number
}

// output checks one output and adds its column.
func (c *checker) output(o syntax.Output, t *Table) (Out, bool) {
	name, _ := Dotted(o.Of)
	out := Out{Name: name, Node: c.expr(o.Of)}
	if out.Node == nil || !c.single(o.Of, out.Node) {
		return out, false
	}
	if find(t.Columns, column(name)) >= 0 {
		c.fail(o.Of.Place(), "the column "+quote(column(name))+" stands twice", "every variable has its column already; name each output once")
		return out, false
	}
	if unit, has := c.bracket(o.Unit); has {
		if c.failed || c.shownIn(out.Node, o.Of, unit) == nil {
			return out, false
		}
		out.Unit = unit
	}
	t.Columns = append(t.Columns, Field{Name: column(name), Type: out.Node.Type(), Unit: out.Unit})
	return out, true
}

// single sees that a value has one cell's room.
func (c *checker) single(e syntax.Expr, n Node) bool {
	name, _ := Dotted(e)
	switch t := n.Type().(type) {
	case *Record:
		c.fail(e.Place(), quote(name)+" is "+t.String()+": one value is wanted here", "name one of its fields: "+quote(name+"."+t.Fields[0].Name))
	case List, *Table:
		c.fail(e.Place(), quote(name)+" is "+t.String()+": one value is wanted here", "take `max(…)`, `min(…)` or one element of it, under a name of its own")
	default:
		return true
	}
	return false
}

func (c *checker) adjust(x *syntax.Adjust) Node {
	over, ok := c.over("adjust", x.Over)
	operands := c.operands(x.Until)
	if !ok || operands == nil {
		return nil
	}
	if over.In != nil {
		c.fail(x.Over.In.Place(), "adjust wants a range to look in", "write "+quote(over.Name+" in 50 to 600"))
		return nil
	}
	if !c.condition(x, &over, operands) || !c.depends(x.Until, over.Name, operands...) {
		return nil
	}
	a := &Adjust{Def: c.def, Over: over, Op: x.Until.Ops[0], Left: operands[0], Right: operands[1]}
	a.span, a.typ = x.Span, over.Def.Type
	return a
}

// condition sees that an adjust can be asked for what it is.
func (c *checker) condition(x *syntax.Adjust, over *Over, operands []Node) bool {
	_, isNumber := operands[0].Type().(Quantity)
	op := x.Until.Ops[0]
	switch {
	case len(x.Until.Ops) > 1:
		c.fail(x.Until.Span, "adjust wants one comparison", "give the other bound as a `limit`")
	case isList(operands[0]) || isList(operands[1]):
		c.fail(x.Until.Span, "adjust compares single values, this is a list", "take min(…) or max(…) of it")
	case over.By == nil && !isNumber:
		c.fail(x.Until.Span, "a truth or text has no value between", "add a step to the range: "+quote("by 1"))
	case over.By == nil && op != "==":
		c.fail(x.Until.OpsAt[0], "without a step, adjust finds where two values meet", "write `==`, or add a step to the range, "+quote("by 1")+", for the first at which this holds")
	case over.By != nil && isNumber && (op == "==" || op == "!="):
		c.fail(x.Until.OpsAt[0], "a step hardly ever meets a value to the last digit", "write `>=` or `<=` for the first step at which that holds, or leave `by` out")
	default:
		return true
	}
	return false
}

func isList(n Node) bool {
	_, list := element(n.Type())
	return list
}

func (c *checker) tune(x *syntax.Tune) Node {
	over, ok := c.overs("tune", x.Over, maxTune, "leave the others at their values")
	of := c.expr(x.Of)
	if !ok || of == nil || !c.single(x.Of, of) {
		return nil
	}
	if _, isNumber := of.Type().(Quantity); !isNumber {
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
	t := &Tune{Def: c.def, Over: over, Most: x.Most, Of: of}
	t.span, t.typ = x.Span, choice(over)
	return t
}

// choice is what a tune comes to: its variable's value, or a record of them.
func choice(over []Over) Type {
	if len(over) == 1 {
		return over[0].Column()
	}
	r := &Record{}
	for _, o := range over {
		r.Fields = append(r.Fields, Field{Name: column(o.Name), Type: o.Column(), Unit: o.Def.Written()})
	}
	return r
}

// Touches reports whether a study's variables bear on a node.
func (d *Def) Touches(n Node) bool {
	return slices.ContainsFunc(Refs(n), func(id int) bool { return d.touched[id] })
}

// depends sees that what is looked for has to do with what is varied.
func (c *checker) depends(e syntax.Expr, names string, nodes ...Node) bool {
	if slices.ContainsFunc(nodes, c.def.Touches) {
		return true
	}
	c.fail(e.Place(), "this does not depend on "+quote(names), c.dependsOn(nodes))
	return false
}

// dependsOn names the plain values that something is worked from.
func (c *checker) dependsOn(nodes []Node) string {
	var names []string
	var queue []int
	for _, n := range nodes {
		queue = append(queue, Refs(n)...)
	}
	seen := map[int]bool{}
	for len(queue) > 0 {
		d := c.program.Defs[queue[0]]
		queue = queue[1:]
		if seen[d.ID] {
			continue
		}
		seen[d.ID] = true
		queue = append(queue, d.needs...)
		if d.Given && len(names) <= shownFields {
			names = append(names, quote(d.Shown(c.sheet)))
		}
	}
	if len(names) == 0 {
		return "it is worked from no plain value; name what is worked from one"
	}
	if len(names) > shownFields {
		names[shownFields] = "…"
	}
	return "it is worked from " + strings.Join(names, ", ")
}
