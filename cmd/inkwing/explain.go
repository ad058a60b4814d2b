package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate/manual"
)

func (t *tool) explainCommand() *cobra.Command {
	asJSON := false
	c := &cobra.Command{
		Use:   "explain [name | words] | file [name]",
		Short: "Describe a function or a word of the language, or say how a quantity came about",
		Long: `Explain describes a function of the library, a constant or a unit: what it takes
and gives, its formula, where it holds, its source, and an example that runs.
It also says why a caution is raised and what mends it. Without a name it lists
the functions by topic; "explain units" lists the units, "explain cautions" the
cautions, "explain statements" the words of the language, such as limit and with, and
"explain rules" what rules and searches can ask. Anything else is searched for: in
names, in what is said of them, in units and cautions.

With a file it lists what the worksheet names: what can be changed, with its value,
and what comes of it. With a name behind the file it tells how that quantity came
about: its formula, the same with the values put in, those of the library with what
was taken by default, and so on down to the plain values and their notes.`,
		Example: "  inkwing explain hold_up_time\n  inkwing explain mWh\n  inkwing explain limit\n  inkwing explain stored-energy\n  inkwing explain density\n  inkwing explain notes.md E_full",
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) < 2, len(args) == 2 && isFile(args[0]):
				return nil
			case isFile(args[0]):
				return trouble{fmt.Errorf("explain takes one name of a file, not %d", len(args)-1), "ask for one at a time"}
			case strings.EqualFold(filepath.Ext(args[0]), ".md"):
				return fmt.Errorf("%s: does not exist", args[0])
			case len(args) == 2 && isFile(args[1]):
				return trouble{fmt.Errorf("the name stands before the file"), "the file comes first: inkwing explain " + args[1] + " " + args[0]}
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case len(args) == 1 && isFile(args[0]) && manual.LookUp(args[0]).IsEmpty():
				return t.contents(c.Context(), args[0], asJSON)
			case len(args) == 2 && isFile(args[0]):
				return t.story(c.Context(), args[0], args[1], asJSON)
			case len(args) == 1 && args[0] == rulesName && !asJSON:
				t.out.printf("%s", t.rulesPage())
				return nil
			}
			e, err := lookUp(args)
			if err != nil {
				return err
			}
			if asJSON {
				return wire.Encode(t.out, wire.OfManual(e.Entries))
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
	*manual.Entries
	list bool // names only, by topic
}

// lookUp finds what the builder asks for.
func lookUp(args []string) (*explanation, error) {
	name := ""
	if len(args) > 0 {
		name = strings.TrimSuffix(strings.TrimSpace(strings.Join(args, " ")), "()")
	}
	if all := manual.All(name); len(args) == 0 || name != "" && !all.IsEmpty() {
		return &explanation{all, true}, nil
	}
	if found := manual.LookUp(name); !found.IsEmpty() {
		return &explanation{found, false}, nil
	}
	// What is written like a name is mistyped, and not a word to search for.
	if found := manual.Search(name); !found.IsEmpty() && !strings.ContainsAny(name, "_-") {
		return &explanation{found, true}, nil
	}
	return nil, unknownName(name)
}

func unknownName(name string) error {
	hint := "inkwing explain lists the functions, inkwing explain units the units, inkwing explain cautions the cautions"
	if near := manual.Nearest(name); near != "" {
		hint = "did you mean " + near + "?"
	}
	return trouble{fmt.Errorf("%s is no function, constant, unit, caution or word of the language", name), hint}
}
