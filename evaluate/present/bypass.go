package present

import (
	"maps"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/working"
)

// bypasses say of what a study varies which arguments of calls stand in its way; touched
// are the definitions that depend on that.
func bypasses(w *working.Evaluation, touched map[int]bool, over []program.Variable, outputs ...program.Node) (notes []string) {
	for _, v := range over {
		if _, isRow := v.Def.Type.(*program.Record); isRow {
			continue // a row reaches a result by all of its columns
		}
		for _, b := range program.Bypasses(v.Def, outputs, touched) {
			notes = append(notes, bypassed(w, v.Name, b))
		}
	}
	return notes
}

// Bypassed say of plain values, by their names, which arguments of calls stand in the
// way of what somebody tries with them.
func Bypassed(w *working.Evaluation, names []string) (notes []string) {
	tried := map[string]bool{}
	for _, name := range names {
		tried[name] = true
	}
	var over []program.Variable
	for _, d := range w.Program.Defs {
		if shown := d.Shown(w.Program.Main); tried[shown] {
			over = append(over, program.Variable{Def: d, Name: shown})
		}
	}
	for _, v := range over {
		touched := w.Program.Graph.Above([]int{v.Def.ID})
		notes = append(notes, bypasses(w, touched, []program.Variable{v}, reached(w, touched)...)...)
	}
	return notes
}

// reached are the sheet's own definitions among those that are touched, as outputs.
func reached(w *working.Evaluation, touched map[int]bool) (outputs []program.Node) {
	for _, id := range slices.Sorted(maps.Keys(touched)) {
		if d := w.Program.Defs[id]; d.Node() != nil && d.Sheet == w.Program.Main {
			outputs = append(outputs, &program.Ref{Def: d})
		}
	}
	return outputs
}

// bypassed is one of these as a sentence.
func bypassed(w *working.Evaluation, name string, b program.Bypass) string {
	text := message.Quote(b.Given) + " is given, so "
	if b.Owner != nil && b.Owner.Name != "" {
		text = message.Quote(b.Given) + " of " + message.Quote(b.Owner.Shown(w.Program.Main)) + " is given, so "
	}
	text += message.Quote(name)
	if last := b.Taken[strings.LastIndexByte(b.Taken, '.')+1:]; last != name {
		text += " through " + message.Quote(b.Taken)
	}
	if b.Left == "" {
		return text + " has no bearing there"
	}
	return text + " bears on " + b.Left + " alone"
}
