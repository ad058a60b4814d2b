package check

import (
	"maps"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// call is a call of the builder's own function, or of the library's.
func (c *checker) call(x *syntax.Call) program.Node {
	if fn := c.sheet.Functions[x.Func.Name]; fn != nil {
		return c.own(x, fn)
	}
	if f, ok := library.Lookup(x.Func.Name); ok {
		return c.library(x, f)
	}
	if c.sheet.unread[x.Func.Name] {
		c.args(x)
		return c.wait(x.Func.Name)
	}
	c.unknownFunction(x)
	return nil
}

// binding is the arguments of a library call as they are found.
type binding struct {
	*checker
	call  *syntax.Call
	fn    *library.Function
	nodes []program.Node // by parameter
	from  []syntax.Expr
	dims  map[string]program.Quantity // what x, y stand for
	each  bool
}

func (c *checker) library(x *syntax.Call, f *library.Function) program.Node {
	b := &binding{checker: c, call: x, fn: f, nodes: make([]program.Node, len(f.Params)), from: make([]syntax.Expr, len(f.Params)), dims: map[string]program.Quantity{}}
	if !b.bind() {
		b.others()
		return nil
	}
	if !b.complete() {
		return nil
	}
	args := make([]program.Node, len(f.Params))
	for i := range f.Params {
		if b.nodes[i] == nil {
			continue
		}
		args[i] = b.fit(&f.Params[i], b.nodes[i], b.from[i])
		if args[i] == nil {
			return nil
		}
	}
	t := b.resultType(f.Result)
	if t == nil || !b.defaultsFit() {
		return nil
	}
	if b.each {
		t = program.List{Elem: t}
	}
	return c.uncertainCall(x, &program.Call{Typed: typed(x.Span, t), Func: f, Args: args, Each: b.each})
}

// others looks at the arguments that can be, where one cannot: what is wrong with them
// is said at once, and not after that one is mended.
func (b *binding) others() {
	for i := range b.fn.Params {
		if p := &b.fn.Params[i]; b.nodes[i] != nil && p.Shape.Dim == "" && p.Shape.Elem == nil {
			b.fit(p, b.nodes[i], b.from[i])
		}
	}
}

// defaultsFit refuses a default that is a pure number where the other arguments
// have a dimension: round(4.7 V) would round to whole SI units unsaid.
func (b *binding) defaultsFit() bool {
	for i := range b.fn.Params {
		p := &b.fn.Params[i]
		q, bound := b.dims[p.Shape.Dim]
		if b.nodes[i] == nil && p.Default != nil && p.Shape.Dim != "" && bound && !q.Dim.IsNumber() {
			unit := q.Dim.Unit()
			b.fail(b.call.Span, "for "+q.String()+" "+message.Quote(b.fn.Name)+" wants "+message.Quote(p.Name)+" too", "say it: "+message.Quote(p.Name+": 1 "+unit))
			return false
		}
	}
	return true
}

// bind gives each argument to its parameter.
func (b *binding) bind() bool {
	ok := true
	next := 0
	for i, a := range b.call.Args {
		at := next
		if a.Name.Name != "" {
			at = b.named(a.Name)
		} else {
			next++
		}
		if at >= 0 && at < len(b.fn.Params) && b.fn.Params[at].Rest && a.Name.Name == "" {
			return b.rest(at, b.call.Args[i:]) && ok
		}
		if !b.accepts(a, at) {
			return false
		}
		b.from[at] = a.Value
		b.nodes[at] = b.counted(b.expr(a.Value))
		ok = ok && b.nodes[at] != nil
	}
	return ok
}

// rest takes all remaining arguments as one list.
func (b *binding) rest(at int, args []syntax.Arg) bool {
	list := make([]syntax.Expr, 0, len(args))
	for _, a := range args {
		if a.Name.Name != "" {
			b.fail(a.Name.Span, message.Quote(b.fn.Name)+" has no parameter "+message.Quote(a.Name.Name), b.signatureHint())
			return false
		}
		list = append(list, a.Value)
	}
	b.from[at] = list[0]
	nodes := b.exprs(list)
	if nodes == nil {
		return false
	}
	nodes[0] = b.counted(nodes[0])
	if _, isList := nodes[0].Type().(program.List); isList && len(nodes) == 1 {
		b.nodes[at] = nodes[0]
		return true
	}
	for i, n := range nodes {
		if !program.Same(nodes[0].Type(), n.Type()) {
			b.fail(list[i].Place(), n.Type().String()+" beside "+nodes[0].Type().String(), "the arguments of "+message.Quote(b.fn.Name)+" are of one kind")
			return false
		}
	}
	b.nodes[at] = &program.ListOf{Typed: typed(b.call.Span, program.List{Elem: nodes[0].Type()}), Items: nodes}
	return true
}

// counted lets a table be counted by its rows.
func (b *binding) counted(n program.Node) program.Node {
	if n == nil || b.fn.Name != "count" {
		return n
	}
	if _, isTable := n.Type().(*program.Table); !isTable {
		return n
	}
	return &program.ColumnOf{Typed: typed(n.Place(), program.List{Elem: program.Number}), X: n, Index: -1}
}

func (b *binding) named(name syntax.Ident) int {
	for i, p := range b.fn.Params {
		if p.Name == name.Name {
			return i
		}
	}
	return -1
}

func (b *binding) accepts(a syntax.Arg, at int) bool {
	switch {
	case at < 0:
		names := make([]string, len(b.fn.Params))
		for i, p := range b.fn.Params {
			names[i] = p.Name
		}
		hint := b.signatureHint()
		if near := message.Nearest(a.Name.Name, names); near != "" {
			hint = didYouMean(near, hint)
		}
		b.fail(a.Name.Span, message.Quote(b.fn.Name)+" has no parameter "+message.Quote(a.Name.Name), hint)
	case at >= len(b.fn.Params) || a.Name.Name == "" && !b.fn.Params[at].Required():
		b.fail(a.Value.Place(), message.Quote(b.fn.Name)+" has too many arguments without a name", b.signatureHint())
	case b.from[at] != nil:
		b.fail(a.Value.Place(), message.Quote(b.fn.Params[at].Name)+" is given twice", b.signatureHint())
	default:
		return true
	}
	return false
}

func (b *binding) signatureHint() string { return "it is " + message.Quote(b.fn.Synopsis()) }

// complete sees that what is required is given, and one of each group.
func (b *binding) complete() bool {
	groups := map[string][]string{}
	count := map[string]int{}
	for i := range b.fn.Params {
		p := &b.fn.Params[i]
		if p.Choose != "" {
			groups[p.Choose] = append(groups[p.Choose], message.Quote(p.Name))
			if b.nodes[i] != nil {
				count[p.Choose]++
			}
			continue
		}
		if b.nodes[i] == nil && p.Required() {
			b.fail(b.call.Span, message.Quote(b.fn.Name)+" wants "+message.Quote(p.Name)+": "+p.Help, b.signatureHint())
			return false
		}
	}
	for _, group := range slices.Sorted(maps.Keys(groups)) {
		names := groups[group]
		atMost := strings.HasSuffix(group, "?")
		if count[group] > 1 || count[group] == 0 && !atMost {
			b.fail(b.call.Span, message.Quote(b.fn.Name)+" wants exactly one of "+strings.Join(names, ", "), "give one of them, by name")
			return false
		}
	}
	return true
}
