package override

import (
	"maps"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
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
	inputs := t.inputs()
	hint := "its plain values are " + message.Names(inputs)
	if len(inputs) == 0 {
		hint = "it has no plain values to replace"
	}
	if near := t.names.speller.Nearest(name, inputs); near != "" {
		hint = "did you mean `" + near + "`?"
	}
	t.fail(at, "no quantity `"+name+"` in "+in.Name, hint)
}

// inputNames are what messages suggest, put together when the first is asked for, and
// as long as that is not too much work.
type inputNames struct {
	inputs  []string
	ready   bool // the inputs are
	all     map[*program.Sheet][]string
	speller message.Speller
	walks   message.Speller // of what definitions are worked from
}

// of are all names of a sheet in order.
func (n *inputNames) of(s *program.Sheet) []string {
	if n.all == nil {
		n.all = map[*program.Sheet][]string{}
	}
	if n.all[s] == nil {
		n.all[s] = slices.Sorted(maps.Keys(s.Names))
	}
	return n.all[s]
}

// inputs are the names of all plain values, those of used sheets too.
func (t *trial) inputs() []string {
	n := &t.names
	for _, d := range t.program.Defs {
		if n.ready {
			break
		}
		direct := d.Sheet == t.program.Main || d.Shown(t.program.Main) != d.Name
		if direct && isInput(d) {
			n.inputs = append(n.inputs, d.Shown(t.program.Main))
		}
	}
	n.ready = true
	return n.inputs
}

// inputsOf names plain values that a definition is evaluated from.
func (t *trial) inputsOf(d *program.Def) string {
	w := inputWalk{trial: t, seen: map[int]bool{}}
	w.from(d)
	switch {
	case w.cut:
		return "replace a plain value that it is worked from"
	case len(w.names) == 0:
		return "give a number in it a name of its own on a line above, and replace that"
	}
	return "replace one of those that it is worked from: " + message.Names(w.names)
}

// An inputWalk looks for what a definition is worked from, until there are as many names
// as a message lists, or until too much was looked at for the messages before.
type inputWalk struct {
	*trial
	seen  map[int]bool
	names []string
	cut   bool
}

func (w *inputWalk) done() bool { return w.cut || len(w.names) > message.Listed }

func (w *inputWalk) from(d *program.Def) {
	w.cut = w.cut || !w.trial.names.walks.Look(1+len(d.Dependencies))
	if w.done() {
		return
	}
	w.names = append(w.names, w.argumentsOf(d)...)
	for _, id := range d.Dependencies {
		need := w.program.Defs[id]
		if w.seen[id] || w.done() {
			continue
		}
		w.seen[id] = true
		if isInput(need) {
			w.names = append(w.names, need.Shown(w.program.Main))
		}
		w.from(need)
	}
}

// argumentsOf are the addresses of what is plain in the calls of a definition, not many.
func (t *trial) argumentsOf(d *program.Def) (names []string) {
	x, ok := d.Stmt.(*syntax.Definition)
	if !ok || !program.Is[*program.Value](d) {
		return nil
	}
	for _, a := range t.reach.Arguments(x.Value, functionsOf(d.Sheet)) {
		if a.Path != "" && a.Plain() && len(names) <= message.Listed {
			names = append(names, d.Shown(t.program.Main)+"("+a.Path+")")
		}
	}
	return names
}
