package main

import (
	"fmt"
	"go/types"
	"strings"
)

// A leaf is a field that the language sees, after embedded structs are flat.
type leaf struct {
	field *types.Var
	path  string // the Go expression that reads it
}

// leaves are the fields of a struct in their order.
func (w *writer) leaves(t *types.Named, path string) (all []leaf) {
	s := t.Underlying().(*types.Struct)
	for field := range s.Fields() {
		at := path + "." + field.Name()
		switch {
		case isModel(field.Type(), "Cautions"), isModel(field.Type(), "Estimate"), isModel(field.Type(), "Looks"):
		case field.Embedded():
			if inner := w.embedded(field); inner != nil {
				all = append(all, w.leaves(inner, at)...)
			}
		case !field.Exported():
			w.fault("the field %s of %s is unexported", field.Name(), t.Obj().Name())
		default:
			all = append(all, leaf{field, at})
		}
	}
	return all
}

// embedded is the struct that a field embeds.
func (w *writer) embedded(field *types.Var) *types.Named {
	named := asStruct(field.Type())
	if named == nil {
		w.fault("it embeds %s, which is not a struct by value", field.Type())
	}
	return named
}

// cautionPaths are the Go expressions of all cautions in a struct and in the
// structs that it holds.
func cautionPaths(t *types.Named, path string) (all []string) {
	for field := range t.Underlying().(*types.Struct).Fields() {
		at := path + "." + field.Name()
		if isModel(field.Type(), "Cautions") {
			all = append(all, at+".List")
		} else if inner := asStruct(field.Type()); inner != nil {
			all = append(all, cautionPaths(inner, at)...)
		}
	}
	return all
}

// estimates reports whether a struct embeds the model's estimate, itself or by way of
// a struct that it embeds.
func estimates(t *types.Named) bool {
	for field := range t.Underlying().(*types.Struct).Fields() {
		inner := asStruct(field.Type())
		if isModel(field.Type(), "Estimate") || field.Embedded() && inner != nil && estimates(inner) {
			return true
		}
	}
	return false
}

// isModel reports whether a type is the model's of that name.
func isModel(t types.Type, name string) bool {
	named, _ := types.Unalias(t).(*types.Named)
	return named != nil && named.Obj().Name() == name && named.Obj().Pkg() != nil &&
		named.Obj().Pkg().Path() == libraryPath+"/model"
}

// asStruct is t if it is a named struct, or nil.
func asStruct(t types.Type) *types.Named {
	named, _ := types.Unalias(t).(*types.Named)
	if named == nil {
		return nil
	}
	if _, ok := named.Underlying().(*types.Struct); !ok {
		return nil
	}
	return named
}

// literal writes a struct with the values from list[*next] on.
func (w *writer) literal(t *types.Named, list string, next *int) string {
	var out strings.Builder
	out.WriteString(w.name(t) + "{\n")
	for field := range t.Underlying().(*types.Struct).Fields() {
		switch {
		case isModel(field.Type(), "Cautions"), isModel(field.Type(), "Estimate"), isModel(field.Type(), "Looks"):
		case field.Embedded():
			if inner := w.embedded(field); inner != nil {
				fmt.Fprintf(&out, "%s: %s,\n", field.Name(), w.literal(inner, list, next))
			}
		case !field.Exported():
			w.fault("the field %s of %s is unexported", field.Name(), t.Obj().Name())
		default:
			value := fmt.Sprintf("%s[%d]", list, *next)
			fmt.Fprintf(&out, "%s: %s,\n", field.Name(), w.take(field.Type(), value))
			*next++
		}
	}
	out.WriteString("}")
	return out.String()
}

// take writes the Go value of type t from value, an any.
func (w *writer) take(t types.Type, value string) string {
	t = types.Unalias(t)
	if s := asStruct(t); s != nil {
		return w.taker(s) + "(" + value + ".(Record))"
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		return w.takeBasic(t, u, value)
	case *types.Pointer:
		return "optional(" + value + ", " + w.takes(u.Elem()) + ")"
	case *types.Slice:
		return w.takeSlice(u, value)
	}
	w.fault("the language has no value for the Go type %s", t)
	return value
}

func (w *writer) takeSlice(u *types.Slice, value string) string {
	if row := asStruct(u.Elem()); row != nil {
		return fmt.Sprintf("rowsIn(%s, %d, %s)", value, len(w.leaves(row, "")), w.taker(row))
	}
	return "listIn(" + value + ", " + w.takes(u.Elem()) + ")"
}

func (w *writer) takeBasic(t types.Type, u *types.Basic, value string) string {
	as := map[types.BasicKind]string{types.Float64: "float64", types.Int: "float64", types.Bool: "bool", types.String: "string"}[u.Kind()]
	if as == "" {
		w.fault("the language has no value for the Go type %s", t)
	}
	text := value + ".(" + as + ")"
	if named, ok := t.(*types.Named); ok {
		return w.name(named) + "(" + text + ")"
	}
	if u.Kind() == types.Int {
		return "int(" + text + ")"
	}
	return text
}

// takes writes a function from an any to t.
func (w *writer) takes(t types.Type) string {
	if b, ok := types.Unalias(t).(*types.Basic); ok && b.Kind() == types.Float64 {
		return "number"
	}
	return fmt.Sprintf("func(v any) %s { return %s }", w.goType(t), w.take(t, "v"))
}

// taker is the helper that reads a struct from a record.
func (w *writer) taker(t *types.Named) string {
	name := "take" + w.suffix(t)
	w.helper(name, t, func() string {
		next := 0
		return fmt.Sprintf("func %s(r Record) %s {\nreturn %s\n}\n", name, w.name(t), w.literal(t, "r", &next))
	})
	return name
}

// give writes the any for value, of type t.
func (w *writer) give(t types.Type, value string) string {
	t = types.Unalias(t)
	if s := asStruct(t); s != nil {
		return w.giver(s) + "(" + value + ")"
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		return w.giveBasic(t, u, value)
	case *types.Pointer:
		return "given(" + value + ", " + w.gives(u.Elem()) + ")"
	case *types.Slice:
		if row := asStruct(u.Elem()); row != nil {
			return w.rows(row) + "(" + value + ")"
		}
		return "listOut(" + value + ", " + w.gives(u.Elem()) + ")"
	}
	w.fault("the language has no value for the Go type %s", t)
	return value
}

func (w *writer) giveBasic(t types.Type, u *types.Basic, value string) string {
	as := map[types.BasicKind]string{types.Float64: "float64", types.Int: "float64", types.Bool: "bool", types.String: "string"}[u.Kind()]
	if as == "" {
		w.fault("the language has no value for the Go type %s", t)
	}
	if _, named := t.(*types.Named); named || u.Kind() == types.Int {
		return as + "(" + value + ")"
	}
	return value
}

// gives writes a function from t to an any.
func (w *writer) gives(t types.Type) string {
	return fmt.Sprintf("func(v %s) any { return %s }", w.goType(t), w.give(t, "v"))
}

// giver is the helper that makes a record of a struct.
func (w *writer) giver(t *types.Named) string {
	name := "give" + w.suffix(t)
	w.helper(name, t, func() string {
		return fmt.Sprintf("func %s(v %s) Record {\nreturn %s\n}\n", name, w.name(t), w.record(w.leaves(t, "v")))
	})
	return name
}

// record writes a record of the leaves.
func (w *writer) record(leaves []leaf) string {
	var out strings.Builder
	out.WriteString("Record{\n")
	for _, l := range leaves {
		out.WriteString(w.give(l.field.Type(), l.path) + ",\n")
	}
	out.WriteString("}")
	return out.String()
}

// rows is the type that offers a slice of structs as Rows, without a copy.
func (w *writer) rows(t *types.Named) string {
	name := "rows" + w.suffix(t)
	w.helper(name, t, func() string { return w.rowsType(name, t) })
	return name
}

func (w *writer) rowsType(name string, t *types.Named) string {
	var cases strings.Builder
	for i, l := range w.leaves(t, "v") {
		fmt.Fprintf(&cases, "case %d:\nreturn %s\n", i, w.give(l.field.Type(), l.path))
	}
	return fmt.Sprintf(`type %[1]s []%[2]s

func (r %[1]s) Len() int { return len(r) }

func (r %[1]s) Cell(row, column int) any {
	v := &r[row]
	switch column {
	%[3]s}
	panic(noColumn(column))
}
`, name, w.name(t), cases.String())
}

// goType writes a type in Go.
func (w *writer) goType(t types.Type) string {
	t = types.Unalias(t)
	if named, ok := t.(*types.Named); ok && named.Obj().Pkg() != nil {
		return w.name(named)
	}
	switch u := t.(type) {
	case *types.Pointer:
		return "*" + w.goType(u.Elem())
	case *types.Slice:
		return "[]" + w.goType(u.Elem())
	}
	return t.String()
}

// suffix makes a helper's name one of its struct's own.
func (w *writer) suffix(t *types.Named) string {
	w.nameable(t)
	return title(t.Obj().Pkg().Path()) + t.Obj().Name()
}
