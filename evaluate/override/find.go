package override

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/syntax"
)

// find is the definition of a plain value by its name, nil where there is none.
func (t *trial) find(name string, at message.Span) *program.Def {
	d, sheet := t.named(name)
	switch {
	case d == nil:
		t.unknown(name, at, sheet)
		return nil
	case program.Is[*program.Data](d):
		t.fail(at, "`"+name+"` is a table", "replace the plain values that pick from it, or one of its cells: `"+name+"[2].mass`")
		return nil
	case !isInput(d):
		t.fail(at, "`"+name+"` is worked from others; only plain values may be replaced", t.inputsOf(d))
		return nil
	}
	return d
}

// named is a definition by its name, and the sheet where it was looked for.
func (t *trial) named(name string) (*program.Def, *program.Sheet) {
	main := t.program.Main
	if d := main.Names[name]; d != nil {
		return d, main
	}
	if prefix, rest, ok := strings.Cut(name, "."); ok && main.Uses[prefix] != nil {
		return main.Uses[prefix].Names[rest], main.Uses[prefix]
	}
	return nil, main
}

// isInput reports whether a definition is a plain value, be it right or in error.
func isInput(d *program.Def) bool {
	x, ok := d.Stmt.(*syntax.Definition)
	return ok && (d.IsInput() || d.Type == nil && syntax.Plain(x.Value))
}

func (t *trial) unknown(name string, at message.Span, in *program.Sheet) {
	if first, _, dotted := strings.Cut(name, "."); dotted && t.program.Main.Names[first] != nil {
		t.fail(at, "`"+name+"` is a field: fields are worked with their record", "replace a plain value that `"+first+"` is made from")
		return
	}
	if t.program.Main.Functions[name] != nil {
		t.fail(at, "`"+name+"` is a function", "only plain values may be replaced")
		return
	}
	hint := "its plain values are " + message.Names(t.inputs())
	if len(t.inputs()) == 0 {
		hint = "it has no plain values to replace"
	}
	if near := message.Nearest(name, t.inputs()); near != "" {
		hint = "did you mean `" + near + "`?"
	}
	t.fail(at, "no quantity `"+name+"` in "+in.Name, hint)
}

// inputs are the names of all plain values, those of used sheets too.
func (t *trial) inputs() []string {
	var names []string
	for _, d := range t.program.Defs {
		direct := d.Sheet == t.program.Main || d.Shown(t.program.Main) != d.Name
		if direct && isInput(d) {
			names = append(names, d.Shown(t.program.Main))
		}
	}
	return names
}

// inputsOf names the plain values that a definition is evaluated from.
func (t *trial) inputsOf(d *program.Def) string {
	var names []string
	seen := map[int]bool{}
	var walk func(*program.Def)
	walk = func(d *program.Def) {
		names = append(names, t.argumentsOf(d)...)
		for _, id := range d.Dependencies {
			need := t.program.Defs[id]
			if seen[id] {
				continue
			}
			seen[id] = true
			if isInput(need) {
				names = append(names, need.Shown(t.program.Main))
			}
			walk(need)
		}
	}
	walk(d)
	if len(names) == 0 {
		return "give a number in it a name of its own on a line above, and replace that"
	}
	return "replace one of those that it is worked from: " + message.Names(names)
}

// argumentsOf are the addresses of what is plain in the calls of a definition.
func (t *trial) argumentsOf(d *program.Def) (names []string) {
	x, ok := d.Stmt.(*syntax.Definition)
	if !ok || !program.Is[*program.Value](d) {
		return nil
	}
	for _, a := range reach.Arguments(x.Value, functionsOf(d.Sheet)) {
		if a.Path != "" && a.Plain() {
			names = append(names, d.Shown(t.program.Main)+"("+a.Path+")")
		}
	}
	return names
}
