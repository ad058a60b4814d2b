// Package reach finds the numbers that a what-if may change although they have no
// name of their own: an argument of a call by the quantity and its name,
// store(series), and a cell of a table, cells["B50"].mass. An argument that is a name
// is changed in that call only.
//
// It looks at what is written only. What cannot be reached is a [Trouble], which
// says how it can.
package reach

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/syntax"
)

// An Argument is one that is given to a call in the right side of a definition.
type Argument struct {
	Func string
	Name string      // of the parameter
	Arg  *syntax.Arg // as it stands in the call
	Path string      // what stands in the brackets of its address; empty for one that has none
	rest bool        // of a parameter that takes all that follow
	row  bool        // in what is asked of each row of a table
}

// Plain reports whether it is written out, and not worked from others.
func (a *Argument) Plain() bool { return !a.rest && syntax.Plain(a.Arg.Value) }

// Functions finds a function of the builder's own by its name, nil for none: it comes
// before one of the library.
type Functions func(name string) *syntax.Function

// Read lists the arguments of all calls in an expression, in the order in which they are
// written. What a vary, adjust or tune is asked for has none.
func (f *Finder) Read(x syntax.Expr, own Functions) []*Argument {
	c := collector{finder: f, own: own}
	c.walk(x, false)
	byName, byBoth := map[string]int{}, map[[2]string]int{}
	for _, a := range c.list {
		byName[a.Name]++
		byBoth[[2]string{a.Func, a.Name}]++
	}
	for _, a := range c.list {
		a.Path = path(a, byName, byBoth)
	}
	return c.list
}

// A collector gathers the arguments of one expression.
type collector struct {
	finder *Finder
	own    Functions
	list   []*Argument
}

// A signature is a function's parameters, and where each stands.
type signature struct {
	params []library.Param
	at     map[string]int
}

// walk goes through an expression; row says that it is asked of each row of a table.
func (c *collector) walk(x syntax.Expr, row bool) {
	if syntax.Sweeps(x) != nil {
		return
	}
	if call, ok := x.(*syntax.Call); ok {
		c.call(call, row)
	}
	chosen, _ := x.(*syntax.Chosen)
	for _, child := range syntax.Children(x) {
		c.walk(child, row || chosen != nil && child == chosen.Of)
	}
}

// path is the argument's name, with its function where other calls have one of that
// name, too; byName and byBoth count those of a name, and of a name and a function.
func path(a *Argument, byName map[string]int, byBoth map[[2]string]int) string {
	switch {
	case a.rest || byBoth[[2]string{a.Func, a.Name}] > 1:
		return ""
	case byName[a.Name] > 1:
		return a.Func + "." + a.Name
	}
	return a.Name
}

// call takes the arguments of one call by their parameters. One too many is nobody's.
func (c *collector) call(call *syntax.Call, row bool) {
	s := c.finder.signature(call.Func.Name, c.own)
	next := 0
	for i := range call.Args {
		arg := &call.Args[i]
		at := min(next, len(s.params)-1)
		if arg.Name.Name != "" {
			at = s.place(arg.Name.Name)
		} else if next++; next > len(s.params) && (at < 0 || !s.params[at].Rest) {
			continue
		}
		if at >= 0 {
			p := s.params[at]
			c.list = append(c.list, &Argument{Func: call.Func.Name, Name: p.Name, Arg: arg, rest: p.Rest && arg.Name.Name == "", row: row})
		}
	}
}

// signature is that of a function by its name: one of the builder's own comes first.
func (f *Finder) signature(name string, own Functions) *signature {
	fn, known := own(name), f.library[name]
	switch {
	case fn == nil && known != nil:
		return known
	case fn != nil && f.own[fn] != nil:
		return f.own[fn]
	}
	if f.own == nil {
		f.own, f.library = map[*syntax.Function]*signature{}, map[string]*signature{}
	}
	if fn == nil {
		f.library[name] = newSignature(parameters(name))
		return f.library[name]
	}
	f.own[fn] = newSignature(named(fn))
	return f.own[fn]
}

func newSignature(params []library.Param) *signature {
	s := &signature{params: params, at: map[string]int{}}
	for i, p := range params {
		putFirst(s.at, p.Name, i)
	}
	return s
}

// place is where a parameter stands, -1 for none.
func (s *signature) place(name string) int {
	if at, known := s.at[name]; known {
		return at
	}
	return -1
}

// named are the parameters of one of the builder's own functions, by their names.
func named(fn *syntax.Function) []library.Param {
	list := make([]library.Param, len(fn.Params))
	for i, p := range fn.Params {
		list[i] = library.Param{Name: p.Name.Name}
	}
	return list
}

// parameters are those of a function of the library.
func parameters(name string) []library.Param {
	if f, ok := library.Lookup(name); ok {
		return f.Params
	}
	return nil
}
