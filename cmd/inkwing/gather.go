package main

import (
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/layout"
	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/region"
	"inkwing/worksheet/rules"
)

// The forms in which gather prints its table.
const (
	asMarkdown = "markdown"
	asCSV      = "csv"
)

var tableFormats = []string{asText, asMarkdown, asCSV, asJSON}

// A gathering is a call of gather.
type gathering struct {
	paths
	columns, sort, units string
}

func (t *tool) gatherCommand() *cobra.Command {
	g := &gathering{}
	c := &cobra.Command{
		Use:   "gather search [path…]",
		Short: "Set out in one table what many worksheets hold",
		Long: `Gather works the worksheets named and prints a table of what a search finds in
them: a kind of row, and behind where a condition on it.

` + kindsOfRows() + `
Conditions compare with == != < <= > >=, join with and, or, not, look into texts
with contains, startsWith, endsWith, matches, in, and work with + - * / abs min
max. A number has its unit, any of its dimension: value >= 40 s. A page may hold a
search as a block of its own, which run keeps up to date:

  ` + "```gather" + `
  quantity where name == "t_charge"
    from "journals"
    columns journal, value, interval
    sort -value
    chart "Charging times"
  ` + "```",
		Example: "  inkwing gather 'quantity where name == \"t_charge\"' journals\n" +
			"  inkwing gather 'limit where headroom < 5 %' --sort headroom --format markdown .",
		Args: wantsSearch,
		RunE: func(c *cobra.Command, args []string) error { return t.gather(c.Context(), g, args) },
	}
	f := c.Flags()
	f.StringVar(&g.columns, "columns", "", "what to show of each row, such as journal,name,value")
	f.StringVar(&g.sort, "sort", "", "the column to sort by; -value for the largest first")
	f.StringVar(&g.units, "units", "", "the units to show numbers in, such as min,g")
	f.StringVar(&g.format, "format", asText, "what to print: text, markdown, csv or json")
	f.StringVar(&g.root, "root", "", "the folder out of which nothing is read (default: as for run)")
	c.RegisterFlagCompletionFunc("format", cobra.FixedCompletions(tableFormats, cobra.ShellCompDirectiveNoFileComp))
	c.MarkFlagDirname("root")
	return c
}

func wantsSearch(_ *cobra.Command, args []string) error {
	if len(args) == 0 || strings.TrimSpace(args[0]) == "" {
		return trouble{errors.New("gather wants a search"), `for example: inkwing gather 'quantity where name == "t_charge"' journals`}
	}
	return nil
}

// kindsOfRows lists what can be looked for, and what each row tells.
func kindsOfRows() string {
	var out strings.Builder
	for _, s := range rules.Subjects() {
		var names []string
		for _, f := range s.Fields {
			names = append(names, f.Name)
		}
		out.WriteString("  " + s.Name + ", " + s.Says + ":\n" + layout.Wrap(strings.Join(names, ", "), "      ", layout.Most))
	}
	return out.String()
}

// gather works the worksheets and prints what the search found.
func (t *tool) gather(ctx context.Context, g *gathering, args []string) error {
	if !slices.Contains(tableFormats, g.format) {
		return trouble{fmt.Errorf("%s is no form of output", g.format), "--format is one of " + strings.Join(tableFormats, ", ")}
	}
	s, err := t.readSearch(g, args[0])
	if err != nil {
		return err
	}
	f, err := t.find(ctx, &paths{root: g.root}, args[1:])
	if err != nil {
		return err
	}
	defer f.close()
	var finds []rules.Find
	t.workAll(ctx, f.found, func(ctx context.Context, g *target) outcome { return gatherOne(ctx, s, g) }, func(o outcome) {
		if o.err != nil {
			t.complain(o.failure())
		}
		finds = append(finds, o.finds...)
	})
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return t.printTable(g, s.Table(finds))
}

// readSearch reads the search and what the flags add to it, as a block would have
// it.
func (t *tool) readSearch(g *gathering, search string) (*rules.Search, error) {
	lines := []string{strings.Join(strings.Fields(search), " ")}
	for _, o := range [][2]string{{"columns", g.columns}, {"sort", g.sort}, {"units", g.units}} {
		if o[1] != "" {
			lines = append(lines, "  "+o[0]+" "+o[1])
		}
	}
	var block []syntax.Line
	at := 0
	for _, l := range lines {
		block = append(block, syntax.Line{Text: l, Offset: at})
		at += len(l) + 1
	}
	list, problems := rules.ReadSearches("search", block)
	if len(problems) > 0 {
		source := message.NewSource("search", []byte(strings.Join(lines, "\n")))
		t.err.printf("%s", message.Style{Level: "error:", Paint: t.err.red}.Render(problems[0], source))
		return nil, trouble{errors.New("the search cannot be read"), "inkwing explain rules lists what can be asked"}
	}
	list[0].ShowLines()
	return list[0], nil
}

// gatherOne works one worksheet and keeps of it what was looked for. A file that
// is to be left as it is holds nothing that could be told.
func gatherOne(ctx context.Context, s *rules.Search, g *target) outcome {
	r, err := g.work(ctx)
	o := outcome{target: g, result: r, err: err}
	if err != nil || r == nil {
		return o
	}
	if len(r.Refused) > 0 {
		o.err = trouble{errors.New(r.Refused[0].Summary), r.Refused[0].Hint}
	}
	if j := r.Journal(g.shown); j != nil {
		o.finds = s.Pick(j)
	}
	return o
}

func (t *tool) printTable(g *gathering, table report.Table) error {
	switch g.format {
	case asJSON:
		return wire.Encode(t.out, wire.OfTable(table))
	case asCSV:
		return t.printCSV(table)
	case asMarkdown:
		for _, l := range region.Lines(report.Block{Tables: []report.Table{table}}, false) {
			t.out.printf("%s\n", visible(l))
		}
	default:
		t.out.printf("%s", t.laidOut(table))
		for _, note := range table.Notes {
			t.err.printf("%s %s\n", t.err.dim("inkwing: note:"), visible(note))
		}
	}
	return nil
}

// headsOf are the headings, without the ticks that Markdown wants.
func headsOf(table report.Table) (heads []string) {
	for _, c := range table.Columns {
		heads = append(heads, strings.Trim(c.Head, "`"))
	}
	return heads
}

func (t *tool) printCSV(table report.Table) error {
	w := csv.NewWriter(t.out)
	w.Write(headsOf(table))
	for _, row := range table.Rows {
		cells := slices.Clone(row)
		for i := range cells {
			cells[i] = visible(cells[i])
			if cells[i] == "—" {
				cells[i] = ""
			}
		}
		w.Write(cells)
	}
	w.Flush()
	return w.Error()
}

// laidOut is the table for a terminal, numbers at the right of their column.
func (t *tool) laidOut(table report.Table) string {
	if len(table.Rows) == 0 {
		return ""
	}
	heads := headsOf(table)
	rows := append([][]string{heads}, table.Rows...)
	width := make([]int, len(heads))
	for _, row := range rows {
		for i, cell := range row {
			width[i] = max(width[i], region.Width(visible(cell)))
		}
	}
	var out strings.Builder
	for k, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			cell = visible(cell)
			pad := strings.Repeat(" ", width[i]-region.Width(cell))
			if k == 0 {
				cell = t.out.bold(cell)
			}
			if table.Columns[i].Number {
				cell = pad + cell
			} else {
				cell += pad
			}
			line.WriteString(cell + "  ")
		}
		out.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return out.String()
}
