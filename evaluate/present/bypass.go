package present

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/working"
)

// bypasses say of what a study varies which arguments of calls stand in its way.
func bypasses(w *working.Evaluation, over []program.Variable, outputs ...program.Node) (notes []string) {
	for _, v := range over {
		if _, isRow := v.Def.Type.(*program.Record); isRow {
			continue // a row reaches a result by all of its columns
		}
		for _, b := range program.Bypasses(v.Def, outputs) {
			notes = append(notes, bypassed(w, v.Name, b))
		}
	}
	return notes
}

// Bypassed say of plain values, by their names, which arguments of calls stand in the
// way of what somebody tries with them.
func Bypassed(w *working.Evaluation, names []string) (notes []string) {
	var over []program.Variable
	var outputs []program.Node
	for _, d := range w.Program.Defs {
		if shown := d.Shown(w.Program.Main); slices.Contains(names, shown) {
			over = append(over, program.Variable{Def: d, Name: shown})
		}
		if n := d.Node(); n != nil && d.Sheet == w.Program.Main {
			outputs = append(outputs, &program.Ref{Def: d})
		}
	}
	return bypasses(w, over, outputs...)
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
