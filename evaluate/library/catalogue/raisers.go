package main

import (
	"go/ast"
	"go/types"
	"maps"
	"slices"
)

// raisers hold, by the full name of a function of the library, the cautions that
// its body makes and the functions that it names.
type raisers map[string]raiser

type raiser struct{ ids, names []string }

// add notes a declared function.
func (r raisers) add(info *types.Info, d ast.Decl, made []caution) {
	f, ok := d.(*ast.FuncDecl)
	if !ok {
		return
	}
	object, ok := info.Defs[f.Name].(*types.Func)
	if !ok {
		return
	}
	var out raiser
	for _, c := range made {
		out.ids = append(out.ids, c.text["ID"])
	}
	ast.Inspect(f, func(n ast.Node) bool {
		if name, ok := n.(*ast.Ident); ok {
			if used, ok := info.Uses[name].(*types.Func); ok {
				out.names = append(out.names, used.FullName())
			}
		}
		return true
	})
	r[object.FullName()] = out
}

// of are the cautions that a function of the language may raise.
func (r raisers) of(f function) []string { return r.reach(f.pack.Path() + "." + f.goName) }

// reach are the IDs of what a function, and all that it names, makes; sorted. That
// is what it may raise at most: a caution can be made and dropped.
func (r raisers) reach(name string) []string {
	ids, seen := map[string]bool{}, map[string]bool{}
	var visit func(string)
	visit = func(name string) {
		if seen[name] {
			return
		}
		seen[name] = true
		for _, id := range r[name].ids {
			ids[id] = true
		}
		for _, next := range r[name].names {
			visit(next)
		}
	}
	visit(name)
	return slices.Sorted(maps.Keys(ids))
}
