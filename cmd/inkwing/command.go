package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"inkwing/worksheet"
)

// command builds the command line. Cobra adds help and completion.
func (t *tool) command() *cobra.Command {
	root := &cobra.Command{
		Use:           "inkwing",
		Short:         "Work the worksheets in Markdown files",
		Long:          "Inkwing works worksheets: Markdown files whose working blocks hold quantities with\nunits. It checks the units, evaluates, and writes the results into the same file.",
		Example:       "  inkwing run notes.md\n  inkwing check .\n  inkwing explain hold_up_time",
		Version:       built(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          unknownVerb,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SuggestionsMinimumDistance = 2
	root.SetIn(t.stdin)
	root.SetOut(t.out)
	root.SetErr(t.err)
	root.SetFlagErrorFunc(usage)
	root.AddCommand(t.runCommand(), t.checkCommand(), t.stripCommand(), t.tryCommand(), t.explainCommand(), t.gatherCommand(), t.newCommand(), t.pageCommand(), t.unpackCommand())
	root.AddCommand(t.deskCommand())
	t.setHelp(root)
	for _, command := range further {
		root.AddCommand(command(t))
	}
	return root
}

// further are commands that some builds have.
var further []func(*tool) *cobra.Command

// unknownVerb answers a first word that is no verb with the nearest verb, or,
// when it is the path of a file, with the whole line.
func unknownVerb(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := "see inkwing --help"
	if near := c.SuggestionsFor(args[0]); len(near) > 0 {
		hint = "did you mean inkwing " + near[0] + "?"
	} else if _, err := os.Stat(args[0]); err == nil {
		hint = "did you mean inkwing run " + args[0] + "?"
	}
	return trouble{fmt.Errorf("%s is no command", args[0]), hint}
}

// Paths is what the verbs that take files share.
type paths struct {
	root string // --root
	name string // --name
	json bool   // --json
	// changed is --changed; empty without
	changed string
	// format is --format; text where the verb has none
	format string
	diff   bool // --diff

	force bool     // --force
	all   bool     // --all
	show  []string // --show
}

func (p *paths) flags(c *cobra.Command) {
	c.Flags().StringVar(&p.root, "root", "", "the folder out of which nothing is read (default: the nearest folder above a file with .git, else the file's own)")
	c.Flags().StringVar(&p.name, "name", "", "what messages call the standard input, and where its use lines look from")
	c.ValidArgsFunction = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return []string{"md"}, cobra.ShellCompDirectiveFilterFileExt
	}
	c.MarkFlagDirname("root")
}

func (p *paths) jsonFlag(c *cobra.Command) {
	c.Flags().BoolVar(&p.json, "json", false, "print the report as JSON")
}

func (p *paths) allFlag(c *cobra.Command) {
	c.Flags().BoolVar(&p.all, "all", false, "print all that changed, not only what the worksheet names in a sentence, bracket or limit")
}

func (p *paths) showFlag(c *cobra.Command) {
	c.Flags().StringSliceVar(&p.show, "show", nil, "the quantities to print, changed or not (default: those that changed)")
}

func (p *paths) forceFlag(c *cobra.Command) {
	c.Flags().BoolVar(&p.force, "force", false, "take out what somebody typed inside of regions, for which a file is else left as it is")
}

// options are what the flags ask of the worksheet.
func (p *paths) options() (list []worksheet.Option) {
	if p.force {
		list = append(list, worksheet.Force)
	}
	return list
}

// formatFlag offers what other programs read, beside --json.
func (p *paths) formatFlag(c *cobra.Command) {
	c.Flags().StringVar(&p.format, "format", asText, "what to print: text, json, github (workflow commands), sarif (2.1.0) or junit (XML)")
	c.RegisterFlagCompletionFunc("format", cobra.FixedCompletions(formats, cobra.ShellCompDirectiveNoFileComp))
}

func (p *paths) diffFlag(c *cobra.Command) {
	c.Flags().BoolVar(&p.diff, "diff", false, "print what would change as a unified diff and write nothing")
}
