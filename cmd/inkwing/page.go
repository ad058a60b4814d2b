package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/disk"
	"inkwing/evaluate/message"
	"inkwing/worksheet"
	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
)

// A pager is one run of page.
type pager struct {
	*tool
	paths
	output   string // -o
	open     bool
	handbook bool
	bare     bool // --bare
	live     bool // --live
}

func (t *tool) pageCommand() *cobra.Command {
	p := &pager{tool: t}
	c := &cobra.Command{
		Use:   "page [file | folder]",
		Short: "Write worksheets as pages to read, print and share",
		Long: `Page works a worksheet and writes it as one HTML file beside it: formulas typeset
with their values put in, charts and images inside, nothing fetched. A folder
gives a page for each of its worksheets and an index.html that says what holds.
The worksheets themselves are not changed.

A page carries its sources: the worksheet with all that it uses, the whole of each
file. inkwing unpack takes them out, inkwing check works them again and says whether
the page shows what comes out. --bare leaves them out.

--live puts the evaluator in, too: whoever opens the page tries other values in it,
with nothing installed and no network, and may save the files that are changed by it.

--handbook writes the library as pages instead, into the folder handbook if no
other is named: every function with its formula, inputs, range, source and an
example worked, the units, the cautions and the language.`,
		Example: "  inkwing page notes.md\n  inkwing page notes.md -o shed.html --open\n  inkwing page . -o pages\n  inkwing page notes.md --live -o share.html\n  inkwing page --handbook --open",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			if p.handbook {
				return p.writeHandbook(c.Context(), args)
			}
			return p.run(c.Context(), args)
		},
	}
	p.flags(c)
	c.Flags().StringVarP(&p.output, "output", "o", "", "the page to write, or the folder of pages; - is the standard output")
	c.Flags().BoolVar(&p.bare, "bare", false, "leave the sources out: the page can then be neither unpacked nor checked")
	c.Flags().BoolVar(&p.live, "live", false, "put the evaluator in: values can be tried in the page itself")
	c.Flags().BoolVar(&p.open, "open", false, "open what was written")
	c.Flags().BoolVar(&p.handbook, "handbook", false, "write the library, the units, the cautions and the language as pages")
	c.MarkFlagsMutuallyExclusive("live", "bare")
	c.MarkFlagsMutuallyExclusive("live", "handbook")
	return c
}

// run writes the page of a file, or those of a folder.
func (p *pager) run(ctx context.Context, args []string) error {
	f, err := p.find(ctx, &p.paths, args)
	if err != nil {
		return err
	}
	defer f.close()
	if len(args) == 0 || isFolder(args[0]) {
		return p.folder(ctx, f.found, path.Clean(filepath.ToSlash(append(args, ".")[0])))
	}
	g, err := f.only(args[0])
	if err != nil {
		return err
	}
	return p.single(ctx, g)
}

func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// single writes one page, beside its worksheet if nothing else is said.
func (p *pager) single(ctx context.Context, g *target) error {
	made, err := p.made(ctx, g, nil)
	if made == nil || err != nil {
		return err
	}
	to := p.output
	if to == "" && g.isStdin() {
		to = "-"
	}
	if to == "" {
		to = filepath.FromSlash(packing.PageName(g.shown))
	}
	text, err := p.document(ctx, made, to, noList)
	if err != nil {
		return err
	}
	if to == "-" {
		p.out.Write(text)
		return nil
	}
	if err := p.write(ctx, to, text); err != nil {
		return err
	}
	return p.show(to)
}

// made is a target's page; nil where it is refused, which is then said.
func (p *pager) made(ctx context.Context, g *target, link func(string) (string, bool)) (*madePage, error) {
	text, err := g.read()
	if err != nil {
		return nil, outcome{target: g, err: err}.failure()
	}
	ctx, done := boundedWork(ctx)
	defer done()
	with := packing.Collect(g.folder, g.name, text)
	var made *page.Page
	var refused []message.Diagnostic
	p.patiently(ctx, func(ctx context.Context) {
		made, refused = worksheet.Page(ctx, with, g.name, text, with.Linked(link))
	})
	if ctx.Err() != nil {
		return nil, outcome{target: g, err: context.Cause(ctx)}.failure()
	}
	if len(refused) > 0 {
		p.refuse(newPlaces(outcome{target: g, result: &worksheet.Result{Source: text}}), refused)
		return nil, nil
	}
	if !made.State.Holds() {
		p.worsen(attention)
	}
	pack, err := with.Pack()
	return &madePage{made, pack, err}, nil
}

// folder writes the pages of a folder's worksheets, and an index of them.
func (p *pager) folder(ctx context.Context, found []*target, shown string) error {
	to := p.output
	if to == "" {
		to = filepath.FromSlash(shown)
	}
	if to == "-" {
		return trouble{errors.New("a folder gives many pages"), "name a folder with -o, or one worksheet"}
	}
	sheets := p.worksheets(found)
	if len(sheets) == 0 {
		p.err.printf("%s no worksheet there\n", p.err.dim("inkwing: note:"))
		return nil
	}
	var entries []page.Entry
	for _, g := range sheets {
		made, err := p.made(ctx, g, linkFrom(g, sheets))
		if err != nil {
			p.complain(err)
			continue
		}
		if made == nil {
			continue
		}
		within, err := filepath.Rel(filepath.FromSlash(shown), filepath.FromSlash(g.shown))
		if err != nil {
			return err
		}
		name := filepath.FromSlash(packing.PageName(filepath.ToSlash(within)))
		text, err := p.document(ctx, made, name, strings.Count(filepath.ToSlash(name), "/"))
		if err == nil {
			err = p.write(ctx, filepath.Join(to, name), text)
		}
		if err != nil {
			p.complain(err)
			continue
		}
		entries = append(entries, page.Entry{Title: made.Title, Href: filepath.ToSlash(name), File: filepath.ToSlash(within), State: made.State})
	}
	index := filepath.Join(to, "index.html")
	if err := p.write(ctx, index, page.Index(titleOf(shown), entries)); err != nil {
		return err
	}
	return p.show(index)
}

// titleOf is what the index of a folder is called.
func titleOf(folder string) string {
	if real, err := realPath(filepath.FromSlash(folder)); err == nil {
		return filepath.Base(real)
	}
	return folder
}

// worksheets are the targets that hold something to be worked.
func (p *pager) worksheets(found []*target) (sheets []*target) {
	for _, g := range found {
		text, err := g.read()
		if err != nil {
			p.complain(outcome{target: g, err: err}.failure())
			continue
		}
		if worksheet.IsSheet(g.name, text) {
			sheets = append(sheets, g)
		}
	}
	return sheets
}

// linkFrom leads a link to another worksheet to its page.
func linkFrom(from *target, sheets []*target) func(string) (string, bool) {
	pages := map[string]bool{}
	for _, g := range sheets {
		pages[filepath.Join(g.base, filepath.FromSlash(g.name))] = true
	}
	here := filepath.Join(from.base, filepath.FromSlash(path.Dir(from.name)))
	return func(file string) (string, bool) {
		if pages[filepath.Join(here, filepath.FromSlash(file))] {
			return packing.PageName(file), true
		}
		return file, !strings.EqualFold(path.Ext(file), ".md")
	}
}

// write puts a page into its place. A file there that is no page of ours stays.
func (p *pager) write(ctx context.Context, to string, text []byte) error {
	dir := filepath.Dir(to)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return fmt.Errorf("%s cannot be made: %w", dir, pathReason(err))
	}
	folder, err := disk.Open(dir)
	if err != nil {
		return fmt.Errorf("%s %w", dir, err)
	}
	defer folder.Close()
	old, err := folder.Read(filepath.Base(to))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		old = nil
	case err != nil:
		return fmt.Errorf("%s %w", to, err)
	case bytes.Equal(old, text):
		p.out.printf("%s: %s\n", p.out.bold(visible(filepath.ToSlash(to))), "unchanged")
		return nil
	case !page.IsOurs(old):
		return trouble{fmt.Errorf("%s stands in the way: it is no page of this program, and is left alone", to), "name another file with -o, or move that one away"}
	}
	if err := folder.Put(ctx, filepath.Base(to), old, text); err != nil {
		return fmt.Errorf("%s %w", to, err)
	}
	p.out.printf("%s: %s\n", p.out.bold(visible(filepath.ToSlash(to))), "written")
	return nil
}

// pathReason is an error of the system without the path, which is said already.
func pathReason(err error) error {
	var of *fs.PathError
	if errors.As(err, &of) {
		return of.Err
	}
	return err
}

// show opens a page where that was asked for.
func (p *pager) show(name string) error {
	if !p.open {
		return nil
	}
	return openFile(name)
}
