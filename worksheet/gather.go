//go:build !lean

package worksheet

import (
	"cmp"
	"context"
	"fmt"
	"path"
	"runtime"
	"slices"
	"sort"
	"strings"
	"sync"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/rules"
)

// The bounds of what one page gathers.
const (
	MaxGathered = 10_000 // journals
	maxDeep     = 20     // folders within folders
)

// columns are those that the regions of searches may have.
func columns() []string { return rules.Columns() }

// A gatherer fills in what the blocks of a page say that are not worked: what is
// wrong with a rule, and what a search found in other journals.
type gatherer struct {
	runner
	ctx   context.Context
	files Files
	doc   *markdown.Document
	out   *report.Report
	slugs report.Slugs
}

// gather brings a page's report up to date with those blocks.
func gather(ctx context.Context, w runner, files Files, doc *markdown.Document, out *report.Report) {
	g := gatherer{runner: w, ctx: ctx, files: files, doc: doc, out: out, slugs: report.Slugs{}}
	g.fill()
}

func (g *gatherer) fill() {
	for _, b := range g.out.Blocks {
		for _, c := range b.Charts {
			g.slugs[c.Slug] = 2
		}
	}
	for i, b := range g.doc.Blocks[:min(len(g.doc.Blocks), len(g.out.Blocks))] {
		switch b.Word {
		case markdown.Keeping:
			_, problems := rules.ReadPage(g.doc.Name, [][]syntax.Line{b.Lines})
			g.fail(i, problems)
		case markdown.Gather:
			searches, problems := rules.ReadSearches(g.doc.Name, b.Lines)
			g.fail(i, problems)
			for _, s := range searches {
				g.search(i, s)
			}
		}
	}
	slices.SortStableFunc(g.out.Errors, func(a, b message.Diagnostic) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
}

// fail makes what is wrong a point of the block, and of the report.
func (g *gatherer) fail(block int, problems []message.Diagnostic) {
	b := &g.out.Blocks[block]
	for _, d := range problems {
		b.Errors = append(b.Errors, report.Failure{Line: lineAt(g.doc.Blocks[block].Lines, d.Span.Start), Diagnostic: d})
		g.out.Errors = append(g.out.Errors, d)
	}
	slices.SortStableFunc(b.Errors, func(a, b report.Failure) int {
		return cmp.Compare(a.Diagnostic.Span.Start, b.Diagnostic.Span.Start)
	})
}

// lineAt is the text of a block's line.
func lineAt(lines []syntax.Line, offset int) string {
	i := sort.Search(len(lines), func(i int) bool { return offset <= lines[i].Offset+len(lines[i].Text) })
	if i == len(lines) || offset < lines[i].Offset {
		return ""
	}
	return strings.TrimSpace(lines[i].Text)
}

// search gathers what one search is after, and draws it if it says so.
func (g *gatherer) search(block int, s *rules.Search) {
	names, wrong := g.journals(s)
	if wrong != nil {
		g.fail(block, []message.Diagnostic{*wrong})
		return
	}
	finds, notes := g.pick(s, names)
	b := &g.out.Blocks[block]
	table := s.Table(finds)
	table.Notes = append(table.Notes, notes...)
	b.Tables = append(b.Tables, table)
	g.uses(names)
	if s.Title == "" {
		return
	}
	c, why := s.Chart(finds)
	if why != "" {
		g.fail(block, []message.Diagnostic{{Span: s.At, Summary: "the chart cannot be drawn: " + why}})
		return
	}
	c.Slug = g.slugs.Next(c.Title)
	b.Charts = append(b.Charts, c)
}

// uses notes the journals as files that the page uses.
func (g *gatherer) uses(names []string) {
	known := map[string]bool{}
	for _, name := range g.out.Uses {
		known[name] = true
	}
	for _, name := range names {
		if !known[name] {
			g.out.Uses = append(g.out.Uses, name)
		}
	}
}

// journals lists the Markdown files that a search looks through, in order.
func (g *gatherer) journals(s *rules.Search) (names []string, wrong *message.Diagnostic) {
	from := s.From
	if len(from) == 0 {
		from = []rules.Source{{Path: ".", Span: s.Span}}
	}
	for _, one := range from {
		at, err := resolve(g.doc.Name, one.Path)
		if err != nil {
			return nil, &message.Diagnostic{Span: one.Span, Summary: "`" + one.Path + "` " + err.Error()}
		}
		before := len(names)
		if !g.below(at, 0, &names) {
			return nil, &message.Diagnostic{Span: one.Span, Summary: fmt.Sprintf("more than %d journals lie in `%s`", MaxGathered, one.Path), Hint: "name a folder with fewer"}
		}
		if len(names) == before && len(s.From) > 0 {
			return nil, &message.Diagnostic{Span: one.Span, Summary: "`" + one.Path + "` holds no journal", Hint: "write the path of a folder or a page, from this page's folder"}
		}
	}
	slices.Sort(names)
	return slices.Compact(names), nil
}

// below adds the pages of a folder, or a page; false where they are too many. The
// page that gathers is none of them.
func (g *gatherer) below(at string, deep int, names *[]string) bool {
	if strings.EqualFold(path.Ext(at), ".md") {
		if text, err := g.files.Read(at); err == nil && at != g.doc.Name && markdown.MayHold(text) {
			*names = append(*names, at)
		}
		return len(*names) <= MaxGathered
	}
	inside, err := list(g.files, at)
	if err != nil || deep > maxDeep {
		return true
	}
	for _, name := range inside {
		if !strings.HasPrefix(name, ".") && (path.Ext(name) == "" || strings.EqualFold(path.Ext(name), ".md")) && !g.below(path.Join(at, name), deep+1, names) {
			return false
		}
	}
	return true
}

// pick works the journals side by side, and takes from each what the search is
// after.
func (g *gatherer) pick(s *rules.Search, names []string) (finds []rules.Find, notes []string) {
	found := make([][]rules.Find, len(names))
	left := make([]string, len(names))
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(len(names), runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := range next {
				found[i], left[i] = g.pickFrom(s, names[i])
			}
		})
	}
	for i := range names {
		next <- i
	}
	close(next)
	workers.Wait()
	for i := range names {
		finds = append(finds, found[i]...)
		if left[i] != "" {
			notes = append(notes, left[i])
		}
	}
	return finds, notes
}

// pickFrom works one journal; left says why it was left out.
func (g *gatherer) pickFrom(s *rules.Search, name string) (finds []rules.Find, left string) {
	if g.ctx.Err() != nil {
		return nil, ""
	}
	shown := g.fromHere(name)
	text, err := g.files.Read(name)
	switch {
	case err != nil:
		return nil, "`" + shown + "` is left out: it " + err.Error()
	case len(text) > MaxFile:
		return nil, "`" + shown + "` is left out: it is too large"
	}
	doc := markdown.ParseWithin(g.ctx, name, text)
	if len(doc.Refused) > 0 {
		return nil, "`" + shown + "` is left out: " + doc.Refused[0].Summary
	}
	if !doc.Works() {
		return nil, ""
	}
	r := g.work(g.ctx, doc.Sheet(), newLoader(g.ctx, g.files, nil))
	return s.Pick(rules.NewJournal(shown, r, text)), ""
}

// fromHere is a journal's path from the folder of the page.
func (g *gatherer) fromHere(name string) string {
	dir := path.Dir(g.doc.Name)
	up := ""
	for dir != "." && !strings.HasPrefix(name, dir+"/") {
		dir, up = path.Dir(dir), up+"../"
	}
	if dir != "." {
		name = strings.TrimPrefix(name, dir+"/")
	}
	return up + name
}
