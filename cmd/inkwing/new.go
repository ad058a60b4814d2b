package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/disk"
	"inkwing/worksheet/beginning"
)

func (t *tool) newCommand() *cobra.Command {
	plan := beginning.Plan{}
	c := &cobra.Command{
		Use:   "new folder",
		Short: "Begin a journal that already works",
		Long: `New makes a folder with a journal, a page of parts and a run of readings, and works
them. Every number is a guess that says so; the guesses fit together, and the prose
asks for your own in the order of the job. --from begins with less: a pack, a
generator with its pack, or an aircraft with its pack.

A folder that holds anything is left alone.`,
		Example: "  inkwing new glider\n  inkwing new bench --from generator --units inch",
		Args:    wantsFolder,
		RunE: func(c *cobra.Command, args []string) error {
			return t.begin(c.Context(), plan, args[0])
		},
	}
	c.Flags().StringVar(&plan.Part, "from", "glider", "what it is about: "+strings.Join(beginning.Parts, ", "))
	c.Flags().StringVar(&plan.Units, "units", "metric", "the units of the guesses: "+strings.Join(beginning.Units, ", "))
	c.RegisterFlagCompletionFunc("from", cobra.FixedCompletions(beginning.Parts, cobra.ShellCompDirectiveNoFileComp))
	c.RegisterFlagCompletionFunc("units", cobra.FixedCompletions(beginning.Units, cobra.ShellCompDirectiveNoFileComp))
	return c
}

func wantsFolder(_ *cobra.Command, args []string) error {
	if len(args) != 1 || args[0] == "" {
		return trouble{errors.New("new wants the name of one folder"), "for example: inkwing new glider"}
	}
	return nil
}

// begin lays the pages out and works them.
func (t *tool) begin(ctx context.Context, plan beginning.Plan, folder string) error {
	if err := fitsPlan(plan); err != nil {
		return err
	}
	plan.Title = headingOf(folder)
	pages, err := beginning.Pages(plan)
	if err != nil {
		return err
	}
	if err := lay(ctx, folder, pages); err != nil {
		return trouble{fmt.Errorf("%s %w", folder, err), "name a folder that is not there yet, or is empty"}
	}
	var sheets []string
	for _, p := range pages {
		if filepath.Ext(p.Name) == ".md" {
			sheets = append(sheets, filepath.Join(folder, p.Name))
		}
	}
	p := &paths{}
	if err := t.sheets(ctx, p, sheets, verb{work: p.runOne, show: t.showRun, writes: true}); err != nil {
		return err
	}
	t.out.printf("\nRead %s from the top: every number marked `# guess` waits for yours.\nThen: inkwing run %s\n",
		t.out.bold(visible(filepath.ToSlash(sheets[0]))), visible(filepath.ToSlash(folder)))
	return nil
}

func fitsPlan(plan beginning.Plan) error {
	switch {
	case !slices.Contains(beginning.Parts, plan.Part):
		return trouble{fmt.Errorf("there is no journal from %s", plan.Part), "--from is one of " + strings.Join(beginning.Parts, ", ")}
	case !slices.Contains(beginning.Units, plan.Units):
		return trouble{fmt.Errorf("%s is no choice of units", plan.Units), "--units is one of " + strings.Join(beginning.Units, ", ")}
	}
	return nil
}

// lay writes the pages into a new folder.
func lay(ctx context.Context, folder string, pages []beginning.Page) error {
	made, err := disk.Make(folder)
	if err != nil {
		return err
	}
	defer made.Close()
	for _, p := range pages {
		if err := made.Put(ctx, p.Name, nil, p.Text); err != nil {
			return err
		}
	}
	return nil
}

// headingOf is a folder's name as a heading: "my_first glider" is "My first glider".
func headingOf(folder string) string {
	name := filepath.Base(filepath.Clean(folder))
	name = strings.Join(strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ")
	first, size := utf8.DecodeRuneInString(name)
	if size == 0 {
		return "Journal"
	}
	return string(unicode.ToUpper(first)) + name[size:]
}
