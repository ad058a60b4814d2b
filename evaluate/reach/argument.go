// Package reach finds the numbers that a what-if may change although they have no
// name of their own: an argument of a call by the quantity and its name,
// store(series), and a cell of a table, cells["B50"].mass. An argument that is a name
// is changed in that call only.
//
// It looks at what is written only. What cannot be reached is a [Trouble], which
// says how it can.
package reach

import (
	"slices"

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

// Arguments are those of all calls in an expression, in the order in which they are
// written. What a vary, adjust or tune is asked for has none.
func Arguments(x syntax.Expr, own Functions) []*Argument {
	var list []*Argument
	var walk func(x syntax.Expr, row bool)
	walk = func(x syntax.Expr, row bool) {
		if syntax.Sweeps(x) != nil {
			return
		}
		if call, ok := x.(*syntax.Call); ok {
			for _, a := range given(call, own) {
				a.row = row
				list = append(list, a)
			}
		}
		chosen, _ := x.(*syntax.Chosen)
		for _, child := range syntax.Children(x) {
			walk(child, row || chosen != nil && child == chosen.Of)
		}
	}
	walk(x, false)
	byName, byBoth := map[string]int{}, map[[2]string]int{}
	for _, a := range list {
		byName[a.Name]++
		byBoth[[2]string{a.Func, a.Name}]++
	}
	for _, a := range list {
		a.Path = path(a, byName, byBoth)
	}
	return list
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

// given are the arguments of one call by their parameters. One too many is nobody's.
func given(call *syntax.Call, own Functions) []*Argument {
	var list []*Argument
	params := parameters(call.Func.Name, own)
	next := 0
	for i := range call.Args {
		arg := &call.Args[i]
		at := min(next, len(params)-1)
		if arg.Name.Name != "" {
			at = slices.IndexFunc(params, func(p library.Param) bool { return p.Name == arg.Name.Name })
		} else if next++; next > len(params) && (at < 0 || !params[at].Rest) {
			continue
		}
		if at >= 0 {
			list = append(list, &Argument{Func: call.Func.Name, Name: params[at].Name, Arg: arg, rest: params[at].Rest && arg.Name.Name == ""})
		}
	}
	return list
}

// parameters are those of a function, of one of the builder's own by their names.
func parameters(name string, own Functions) []library.Param {
	if fn := own(name); fn != nil {
		list := make([]library.Param, len(fn.Params))
		for i, p := range fn.Params {
			list[i] = library.Param{Name: p.Name.Name}
		}
		return list
	}
	if f, ok := library.Lookup(name); ok {
		return f.Params
	}
	return nil
}
