package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// about says what the functions of a topic are for.
var about = map[string]string{
	"generator": ": wire, magnets, coils, from the crank to the terminals",
	"energy":    ": capacitors, packs and what they carry",
	"glide":     ": air, airframes and how they come down",
	"plain":     ": arithmetic",
}

// topics are those of the library, in its order.
func topics() []string {
	var out []string
	for _, f := range library.All() {
		if !slices.Contains(out, f.Topic) {
			out = append(out, f.Topic)
		}
	}
	return out
}

func (t *tool) explainCommand() *cobra.Command {
	asJSON := false
	c := &cobra.Command{
		Use:   "explain [name] | file name",
		Short: "Describe a function or a word of the language, or say how a quantity came about",
		Long: `Explain describes a function of the library, a constant or a unit: what it takes
and gives, its formula, where it holds, its source, and an example that runs.
It also says why a caution is raised and what mends it. Without a name it lists
the functions by topic; "explain units" lists the units, "explain cautions" the
cautions, "explain statements" the words of the language, such as limit and with.

With a file before the name it says how that quantity of the worksheet came
about: its formula, the same with the values put in, and so on down to the plain
values and their notes.`,
		Example: "  inkwing explain hold_up_time\n  inkwing explain mWh\n  inkwing explain limit\n  inkwing explain stored-energy\n  inkwing explain notes.md E_full",
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) < 2, len(args) == 2 && isFile(args[0]):
				return nil
			case len(args) == 2 && strings.EqualFold(filepath.Ext(args[0]), ".md"):
				return fmt.Errorf("%s: does not exist", args[0])
			case len(args) == 2 && isFile(args[1]):
				return trouble{fmt.Errorf("the name stands before the file"), "the file comes first: inkwing explain " + args[1] + " " + args[0]}
			}
			return trouble{fmt.Errorf("explain takes one name, not %d", len(args)), "or an existing file and a name in it: inkwing explain notes.md E_full"}
		},
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 2 {
				return t.story(c.Context(), args[0], args[1], asJSON)
			}
			e, err := lookUp(args)
			if err != nil {
				return err
			}
			if asJSON {
				return t.encode(e.json())
			}
			t.out.printf("%s", t.page(e))
			return nil
		},
		ValidArgsFunction: t.completeExplain,
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print the description as JSON")
	return c
}

// An explanation is what one call of explain is about.
type explanation struct {
	list      bool // names only, by topic
	functions []*library.Function
	constants []library.Named
	units     []units.Named
	cautions  []library.Caution
	words     []syntax.Word
}

// lookUp finds what the builder asks for. A word may be a function and a unit.
func lookUp(args []string) (*explanation, error) {
	if len(args) == 0 {
		return &explanation{list: true, functions: library.All(), constants: library.Constants()}, nil
	}
	name := strings.TrimSuffix(strings.TrimSpace(args[0]), "()")
	switch name {
	case "units":
		return &explanation{list: true, units: units.All()}, nil
	case "cautions":
		return &explanation{list: true, cautions: library.Cautions()}, nil
	case "statements":
		return &explanation{list: true, words: syntax.Words()}, nil
	}
	// generator and glide are topics and functions of them: the function is what
	// a builder calls, the topic stands in the plain list.
	if of := ofTopic(name); len(of) > 0 && !slices.Contains(library.Names(), name) {
		return &explanation{list: true, functions: of}, nil
	}
	if e := allNamed(name); e != nil {
		return e, nil
	}
	return nil, unknownName(name)
}

// allNamed is what goes under a name, nil for nothing.
func allNamed(name string) *explanation {
	e := &explanation{units: unitsNamed(name)}
	if f, ok := library.Lookup(name); ok {
		e.functions = append(e.functions, f)
	}
	for _, c := range library.Constants() {
		if c.Name == name {
			e.constants = append(e.constants, c)
		}
	}
	for _, c := range library.Cautions() {
		if c.ID == name {
			e.cautions = append(e.cautions, c)
		}
	}
	for _, w := range syntax.Words() {
		if w.Name == name || slices.Contains(w.Also, name) {
			e.words = append(e.words, w)
		}
	}
	if len(e.functions)+len(e.constants)+len(e.units)+len(e.cautions)+len(e.words) == 0 {
		return nil
	}
	return e
}

func ofTopic(topic string) []*library.Function {
	return slices.DeleteFunc(library.All(), func(f *library.Function) bool { return f.Topic != topic })
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

func unknownName(name string) error {
	hint := "inkwing explain lists the functions, inkwing explain units the units, inkwing explain cautions the cautions"
	if near := message.Nearest(name, names()); near != "" {
		hint = "did you mean " + near + "?"
	}
	return trouble{fmt.Errorf("%s is no function, constant, unit, caution or word of the language", name), hint}
}

// names is all that can be explained.
func names() []string {
	out := append(append([]string{"units", "cautions", "statements"}, topics()...), library.Names()...)
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
