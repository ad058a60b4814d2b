package check

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// own puts a function of the builder's own in place of its call. Its body is
// checked anew for each kind of arguments, since its dimensions follow them.
func (c *checker) own(x *syntax.Call, fn *program.Def) program.Node {
	if fn.Failed {
		c.callFails(x, fn)
		c.args(x)
		return c.wait(x.Func.Name)
	}
	values := c.ownArgs(x, function(fn).Params)
	if values == nil {
		return nil
	}
	params := make([]*program.Param, len(values))
	for i, v := range values {
		params[i] = &program.Param{Name: function(fn).Params[i].Name.Name, Type: v.Type()}
	}
	body := c.body(x, fn, params)
	if body == nil {
		return nil
	}
	return &program.Let{Typed: typed(x.Span, body.Type()), Params: params, Values: values, Body: body}
}

// callFails adds a call to what is told of a function that cannot be worked,
// whatever it is called with.
func (c *checker) callFails(x *syntax.Call, fn *program.Def) {
	if i, told := c.whole.failing[fn]; told && x.Span.File == fn.Place.File {
		p := &c.whole.of(fn).Problems[i]
		p.Notes = append(p.Notes, message.Note{Span: x.Span, Text: message.CalledHere})
	}
}

// args checks the arguments for their own errors only.
func (c *checker) args(x *syntax.Call) {
	list := make([]syntax.Expr, len(x.Args))
	for i, a := range x.Args {
		list[i] = a.Value
	}
	c.exprs(list)
}

// ownArgs puts the arguments in the order of the parameters.
func (c *checker) ownArgs(x *syntax.Call, params []syntax.Param) []program.Node {
	given := make(map[int]program.Node, len(x.Args))
	ok := true
	for i, a := range x.Args {
		at := i
		if a.Name.Name != "" {
			at = c.whole.paramPlace(params, a.Name.Name)
		}
		if _, twice := given[at]; twice || at < 0 || at >= len(params) {
			c.badOwnArg(x, a, at, params)
			return nil
		}
		given[at] = c.ownArg(a.Value, params[at])
		ok = ok && given[at] != nil
	}
	values := make([]program.Node, 0, len(given))
	for i := range params {
		value, known := given[i]
		if !known {
			c.fail(x.Span, message.Quote(x.Func.Name)+" wants "+message.Quote(params[i].Name.Name)+" too", "write "+message.Quote(ownSignature(x.Func.Name, params)))
			return nil
		}
		values = append(values, value)
	}
	if !ok {
		return nil
	}
	return values
}

func (c *checker) ownArg(e syntax.Expr, p syntax.Param) program.Node {
	node := c.expr(e)
	if node == nil || p.Unit == nil {
		return node
	}
	u, err := units.Parse(p.Unit.Text)
	if err != nil {
		c.badUnit(p.Unit, err)
		return nil
	}
	return c.shownIn(node, e, u)
}

// function is what the builder wrote of a function.
func function(fn *program.Def) *syntax.Function { return fn.Body.(*program.Function).Stmt }

// paramPlace is where a parameter stands in a list of them, -1 for none.
func (a *analysis) paramPlace(params []syntax.Param, name string) int {
	if len(params) == 0 {
		return -1
	}
	places := a.paramPlaces[&params[0]]
	if places == nil {
		places = make(map[string]int, len(params))
		for i, p := range params {
			places[p.Name.Name] = i
		}
		a.paramPlaces[&params[0]] = places
	}
	if i, known := places[name]; known {
		return i
	}
	return -1
}

// maxParams is how many parameters a message names, far more than a function has.
const maxParams = 50

func ownSignature(name string, params []syntax.Param) string {
	var parts []string
	for _, p := range params[:min(len(params), maxParams)] {
		part := p.Name.Name
		if p.Unit != nil {
			part += " [" + p.Unit.Text + "]"
		}
		parts = append(parts, part)
	}
	if len(params) > maxParams {
		parts = append(parts, "…")
	}
	return name + "(" + strings.Join(parts, ", ") + ")"
}

func (c *checker) badOwnArg(x *syntax.Call, a syntax.Arg, at int, params []syntax.Param) {
	signature := "it is " + message.Quote(ownSignature(x.Func.Name, params))
	switch {
	case at < 0:
		c.fail(a.Name.Span, message.Quote(x.Func.Name)+" has no parameter "+message.Quote(a.Name.Name), signature)
	case at >= len(params):
		c.fail(a.Value.Place(), message.Quote(x.Func.Name)+" has too many arguments", signature)
	default:
		c.fail(a.Value.Place(), message.Quote(params[at].Name.Name)+" is given twice", signature)
	}
}

// body checks a function's body with its parameters bound.
func (c *checker) body(x *syntax.Call, fn *program.Def, params []*program.Param) program.Node {
	inner := &checker{whole: c.whole, def: c.def, sheet: c.whole.of(fn), params: map[string]*program.Param{}, nodes: c.nodes}
	for _, p := range params {
		inner.params[p.Name] = p
	}
	inner.at = &x.Span
	c.whole.called[fn] = true
	told := len(inner.sheet.Problems)
	node := inner.functionBody(fn)
	c.nodes = inner.nodes
	if inner.failed {
		if fn.Failed = unitsGiven(fn); fn.Failed && len(inner.sheet.Problems) == told+1 {
			c.whole.failing[fn] = told
		}
		return c.wait(x.Func.Name)
	}
	if node == nil {
		return c.wait(inner.waits)
	}
	return node
}

func (c *checker) functionBody(fn *program.Def) program.Node {
	unit, has := c.bracket(function(fn).Unit)
	if c.failed {
		return nil
	}
	return c.definitionValue(function(fn).Body, unit, has)
}

// unitsGiven reports whether all parameters say their units, so that the body's
// meaning does not depend on the call.
func unitsGiven(fn *program.Def) bool {
	for _, p := range function(fn).Params {
		if p.Unit == nil {
			return false
		}
	}
	return true
}

// checkAlone checks a function that nobody calls.
// isBracket refuses a function that nobody calls and that is no function: E (J) = 4 J,
// with a unit in the wrong brackets.
func (a *analysis) isBracket(fn *program.Def) bool {
	x := function(fn)
	if len(x.Params) != 1 || x.Params[0].Unit != nil {
		return false
	}
	unit := x.Params[0].Name.Name
	if _, err := units.Parse(unit); err != nil || names(x.Body, unit) {
		return false
	}
	a.fail(fn, x.Name.Span.To(x.Params[0].Name.Span), "this makes a function "+message.Quote(x.Name.Name)+" of "+message.Quote(unit)+", which nothing calls",
		"a unit stands in square brackets: write "+message.Quote(x.Name.Name+" ["+unit+"] = …"))
	return true
}

// names reports whether an expression names something.
func names(x syntax.Expr, name string) bool {
	if n, ok := x.(*syntax.Name); ok && n.Name == name {
		return true
	}
	return slices.ContainsFunc(syntax.Children(x), func(child syntax.Expr) bool { return names(child, name) })
}

func (a *analysis) checkAlone(fn *program.Def) {
	if a.isBracket(fn) || !unitsGiven(fn) {
		return
	}
	c := a.checker(&program.Def{Sheet: fn.Sheet, Block: fn.Block, Place: fn.Place})
	c.params = map[string]*program.Param{}
	for _, p := range function(fn).Params {
		u, err := units.Parse(p.Unit.Text)
		if err != nil {
			c.badUnit(p.Unit, err)
			return
		}
		c.params[p.Name.Name] = &program.Param{Name: p.Name.Name, Type: program.Quantity{Kind: u.Kind}}
	}
	c.functionBody(fn)
}
