package main

import (
	"cmp"
	"strconv"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/layout"
)

// hanging lets cobra's templates break a text behind a verb's name and its padding; they
// know such functions for the whole program.
var hanging = sync.OnceFunc(func() {
	const behind = 14
	cobra.AddTemplateFunc("hanging", func(width int, text string) string {
		return strings.TrimSpace(layout.Wrap(text, strings.Repeat(" ", behind), width))
	})
})

// setHelp has help set for the width of the terminal.
func (t *tool) setHelp(root *cobra.Command) {
	hanging()
	width := strconv.Itoa(t.out.width)
	root.SetUsageTemplate(strings.NewReplacer("Flags.FlagUsages", "Flags.FlagUsagesWrapped "+width, "{{.Short}}", "{{hanging "+width+" .Short}}",
		`Use "{{.CommandPath}} [command] --help" for more information about a command.`, `More: {{.CommandPath}} [command] --help`).Replace(root.UsageTemplate()))
	root.SetHelpFunc(func(c *cobra.Command, _ []string) {
		text := t.out.wrap(unbroken(cmp.Or(c.Long, c.Short)), "")
		t.out.printf("%s\n%s", text, c.UsageString())
	})
}

// unbroken joins the lines of each paragraph, but for those that are indented.
func unbroken(text string) string {
	var out strings.Builder
	before := ""
	for i, line := range strings.Split(strings.TrimSpace(text), "\n") {
		switch {
		case i == 0:
		case line == "" || before == "" || line[0] == ' ' || line[0] == '\t':
			out.WriteString("\n")
		default:
			out.WriteString(" ")
		}
		out.WriteString(line)
		before = line
	}
	return out.String()
}
