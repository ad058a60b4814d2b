// Package manual finds what can be explained of the language without a worksheet:
// functions, constants, units, cautions, statements and keywords.
//
// [LookUp] finds what goes under a name, [Search] what has words in it, [All] lists a
// chapter, [Names] lists all names. It holds no text of its own: those stand where the thing is declared.
package manual

import (
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// Entries are what was found, each kind in its own order.
type Entries struct {
	Functions []*library.Function
	Constants []library.Named
	Units     []units.Named
	Cautions  []library.Caution
	Words     []syntax.Word
}

// IsEmpty reports whether nothing was found.
func (e *Entries) IsEmpty() bool {
	return len(e.Functions)+len(e.Constants)+len(e.Units)+len(e.Cautions)+len(e.Words) == 0
}

// The chapters that a name may ask for as a whole, besides the topics of the
// library.
const (
	Functions  = ""
	Units      = "units"
	Cautions   = "cautions"
	Statements = "statements"
)

// All lists a chapter; it is empty for a name that is none.
func All(chapter string) *Entries {
	switch chapter {
	case Functions:
		return &Entries{Functions: library.All(), Constants: library.Constants()}
	case Units:
		return &Entries{Units: units.All()}
	case Cautions:
		return &Entries{Cautions: library.Cautions()}
	case Statements:
		return &Entries{Words: syntax.Words()}
	}
	// generator and glide are topics and functions of them: the function is what
	// a builder calls, the topic stands in the plain list.
	if slices.Contains(library.Names(), chapter) {
		return &Entries{}
	}
	other := func(f *library.Function) bool { return f.Topic != chapter }
	return &Entries{Functions: slices.DeleteFunc(library.All(), other)}
}

// LookUp finds what goes under a name, which may be a function and a unit.
func LookUp(name string) *Entries {
	e := &Entries{Units: unitsNamed(name)}
	if f, ok := library.Lookup(name); ok {
		e.Functions = append(e.Functions, f)
	}
	for _, c := range library.Constants() {
		if c.Name == name {
			e.Constants = append(e.Constants, c)
		}
	}
	for _, c := range library.Cautions() {
		if c.ID == name {
			e.Cautions = append(e.Cautions, c)
		}
	}
	for _, w := range syntax.Words() {
		if w.Name == name || slices.Contains(w.Also, name) {
			e.Words = append(e.Words, w)
		}
	}
	return e
}

// unitsNamed is the unit of a symbol, a name or any text that reads as a unit.
func unitsNamed(name string) []units.Named {
	for _, u := range units.All() {
		if u.Symbol == name || strings.EqualFold(u.Name, name) || slices.Contains(u.Aliases, name) {
			return []units.Named{u}
		}
	}
	u, err := units.Parse(name)
	if err != nil || name == "" || name == "1" {
		return nil
	}
	return []units.Named{{Symbol: u.String(), Meaning: u.Kind.String(), Unit: u}}
}

// Topics are those of the library, in its order.
func Topics() (list []string) {
	for _, f := range library.All() {
		if !slices.Contains(list, f.Topic) {
			list = append(list, f.Topic)
		}
	}
	return list
}

// About says what the functions of a topic are for.
func About(topic string) string {
	switch topic {
	case "generator":
		return "wire, magnets, coils, from the crank to the terminals"
	case "energy":
		return "capacitors, packs and what they carry"
	case "glide":
		return "air, airframes and how they come down"
	case "workshop":
		return "printed parts, holes and pins, preferred values"
	}
	return "arithmetic"
}

// Names is all that can be asked for, chapters first.
func Names() []string {
	out := append([]string{Units, Cautions, Statements}, Topics()...)
	out = append(out, library.Names()...)
	for _, c := range library.Constants() {
		out = append(out, c.Name)
	}
	for _, u := range units.All() {
		out = append(out, u.Symbol)
	}
	for _, c := range library.Cautions() {
		out = append(out, c.ID)
	}
	for _, w := range syntax.Words() {
		out = append(append(out, w.Name), w.Also...)
	}
	return out
}

// Nearest is the name that a builder may have meant; empty for none.
func Nearest(name string) string { return message.Nearest(name, Names()) }
