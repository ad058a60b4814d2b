package worksheet

import (
	"context"
	"crypto/sha256"
	"path"
	"slices"
	"strings"

	"inkwing/evaluate"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet/chart"
	"inkwing/worksheet/markdown"
)

// A Basis is what a page stands on: its own bytes, its charts, and what the files say
// that it uses. A page whose basis is that of one which a run left as it was is left as
// it is, too: nobody needs to work it to know.
type Basis struct {
	// Page stands for all of it. Bearing leaves out the plain values of used pages on
	// which nothing here hangs; it counts only where all of Sheets are whole.
	Page, Bearing evaluate.Digest
	// Sheets are the worksheets that it uses, Own is the page as one that is used: each
	// with all that it uses itself.
	Sheets map[string]evaluate.Digest
	Own    evaluate.Digest
	// Whole are the sheets of which everything could be evaluated, Own's among them by
	// the page's name; nil where nothing was evaluated.
	Whole map[string]bool
	Files []string // that it uses, directly or not
}

// IsWhole reports whether everything that the page uses could be evaluated.
func (b *Basis) IsWhole() bool {
	for name := range b.Sheets {
		if !b.Whole[name] {
			return false
		}
	}
	return true
}

// BasisOf is the basis of a page as it stands; nil where it has none that is known
// without working it: a page that gathers from others, one in error, or with a chart
// that was not made by a run.
func BasisOf(ctx context.Context, files Files, path string, text []byte) *Basis {
	doc, load, _ := Document(ctx, files, path, text)
	if doc == nil || len(doc.Blocks) == 0 || gathersIn(doc) {
		return nil
	}
	list, ok := standingCharts(files, path)
	if !ok {
		return nil
	}
	return newBasis(path, text, list, evaluate.BasisOf(ctx, doc.Sheet(), load))
}

// based is the way of a text through a run that asks for its basis, too.
func (w runner) based(ctx context.Context, files Files, path string, text []byte) *Result {
	var of *evaluate.Basis
	var whole map[string]bool
	w.work = func(ctx context.Context, s *sheet.Sheet, load sheet.Loader) (r *report.Report) {
		r, of, whole = evaluate.WorkBased(ctx, s, load)
		return r
	}
	r := w.run(ctx, files, path, text)
	if r.Report == nil || len(r.Report.Errors) > 0 || gathers(text) {
		return r
	}
	if r.Basis = newBasis(path, r.Output, r.chartsThen(), of); r.Basis != nil {
		r.Basis.Whole = whole
	}
	return r
}

// chartsThen are the charts beside a page once the run is written.
func (r *Result) chartsThen() (list []ChartFile) {
	for _, c := range slices.Concat(r.Charts, r.Kept) {
		if c.New != nil {
			list = append(list, c)
		}
	}
	return list
}

func gathersIn(doc *markdown.Document) bool {
	return slices.ContainsFunc(doc.Blocks, func(b markdown.Block) bool { return b.Word == markdown.Gather })
}

// standingCharts are those that lie beside a page; not ok where something lies among them
// that no run made.
func standingCharts(files Files, page string) (all []ChartFile, ok bool) {
	folder := ChartFolder(page)
	names, err := list(files, folder)
	if err != nil {
		return nil, false
	}
	for _, name := range names {
		if !strings.EqualFold(path.Ext(name), chartEnding) {
			continue
		}
		text, err := files.Read(path.Join(folder, name))
		if err != nil || !chart.IsOurs(text) {
			return nil, false
		}
		all = append(all, ChartFile{Path: path.Join(folder, name), New: text})
	}
	return all, true
}

// newBasis puts a page and its charts before what they stand on; nil for none.
func newBasis(path string, text []byte, charts []ChartFile, of *evaluate.Basis) *Basis {
	if of == nil {
		return nil
	}
	slices.SortFunc(charts, func(a, b ChartFile) int { return strings.Compare(a.Path, b.Path) })
	own := appendDigest(appendDigest(nil, []byte(path)), text)
	for _, c := range charts {
		own = appendDigest(appendDigest(own, []byte(c.Path)), c.New)
	}
	digest := func(d evaluate.Digest) evaluate.Digest { return sha256.Sum256(append(slices.Clip(own), d[:]...)) }
	return &Basis{Page: digest(of.All), Bearing: digest(of.Bearing), Sheets: of.Sheets, Own: of.Own, Files: of.Files}
}

func appendDigest(b, text []byte) []byte {
	d := sha256.Sum256(text)
	return append(b, d[:]...)
}
