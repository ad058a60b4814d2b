package worksheet

import (
	"cmp"
	"path"
	"slices"
	"strings"
	"unicode"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/chart"
)

// A ChartFile is a chart beside a worksheet that is not what it should be.
type ChartFile struct {
	Path string // from the run's root
	Old  []byte // as it stands; nil for none
	New  []byte // as it should be; nil for one to be removed
}

// States are the file's state before a run that writes it, and what that run does.
func (c ChartFile) States() (before, done string) {
	switch {
	case c.New == nil:
		return "left over", "removed"
	case c.Old == nil:
		return "missing", "written"
	}
	return "stale", "written"
}

// ChartFolder is where a worksheet's charts lie: notes.charts for notes.md.
func ChartFolder(sheet string) string {
	return strings.TrimSuffix(sheet, path.Ext(sheet)) + ".charts"
}

// chartEnding is what chart files end with.
const chartEnding = ".svg"

// keeper holds the chart files of one worksheet against its report.
type keeper struct {
	files  Files
	folder string
	source []byte
	names  []string          // what lies in the folder
	folded map[string]string // the first of them for each that goes by it whatever the case
	bad    error             // why nothing can lie there
	out    []ChartFile
	fresh  []ChartFile
	wanted map[string]bool
	// refused are the charts that cannot be kept.
	refused []message.Diagnostic
}

// charts draws what a report shows and lists the files that differ, are missing
// or left over, and those that are fresh. A chart whose place is taken by somebody
// else's file becomes an error of its block.
func charts(files Files, sheet string, source []byte, r *report.Report) (differ, fresh []ChartFile) {
	k := &keeper{files: files, folder: ChartFolder(sheet), source: source, wanted: map[string]bool{}}
	k.names, k.bad = list(files, k.folder)
	k.folded = make(map[string]string, len(k.names))
	for _, n := range slices.Backward(k.names) {
		k.folded[fold(n)] = n
	}
	for i := range r.Blocks {
		b := &r.Blocks[i]
		var kept []report.Chart
		for _, c := range b.Charts {
			if c.State != report.Evaluated || k.keep(&c, b) {
				kept = append(kept, c)
			}
		}
		b.Charts = kept
	}
	if len(k.refused) > 0 {
		r.Errors = append(r.Errors, k.refused...)
		slices.SortStableFunc(r.Errors, func(a, b message.Diagnostic) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
	}
	return append(k.out, leftOver(files, k.folder, k.names, k.wanted)...), k.fresh
}

func list(files Files, folder string) ([]string, error) {
	if files == nil {
		return nil, nil
	}
	return files.List(folder)
}

// keep puts a chart's file down for writing where it differs; false where it
// cannot stand there.
func (k *keeper) keep(c *report.Chart, b *report.Block) bool {
	name := c.Slug + chartEnding
	file := ChartFile{Path: path.Join(k.folder, name), New: chart.Draw(*c)}
	c.File = path.Join(path.Base(k.folder), name)
	if why := k.standing(name, &file); why != "" {
		k.refuse(c, b, why)
		return false
	}
	k.wanted[name] = true
	if file.Old == nil || !chart.Same(file.Old, file.New) {
		k.out = append(k.out, file)
	} else {
		k.fresh = append(k.fresh, ChartFile{file.Path, file.Old, file.Old})
	}
	return true
}

// fold is the same for names that are alike but for case, as [strings.EqualFold] has it.
func fold(name string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for other := unicode.SimpleFold(r); other != r; other = unicode.SimpleFold(other) {
			least = min(least, other)
		}
		return least
	}, name)
}

// standing reads what stands at a chart's place, and says why that must stay.
func (k *keeper) standing(name string, file *ChartFile) (why string) {
	if k.bad != nil {
		return "`" + path.Base(k.folder) + "` " + k.bad.Error()
	}
	there, taken := k.folded[fold(name)]
	if !taken {
		return ""
	}
	here := "`" + path.Join(path.Base(k.folder), there) + "` "
	text, err := k.files.Read(path.Join(k.folder, there))
	switch {
	case err != nil:
		return here + err.Error()
	case !chart.IsOurs(text):
		return here + "stands in the way: it was not made by a run, and is left alone"
	case there != name:
		return here + "stands in the way of `" + name + "`"
	}
	file.Old = text
	return ""
}

// refuse makes a chart that cannot be kept an error where the builder reads it.
func (k *keeper) refuse(c *report.Chart, b *report.Block, why string) {
	d := message.Diagnostic{Span: c.Span, Summary: "the chart cannot be kept: " + why, Hint: "move that file away, or give the chart another title"}
	if k.bad != nil {
		d.Hint = "move that away: the charts of a worksheet lie in a folder of that name"
	}
	line, _, _ := strings.Cut(string(k.source[c.Span.Start:max(c.Span.Start, c.Span.End)]), "\n")
	b.Errors = append(b.Errors, report.Failure{Line: strings.TrimSpace(line), Diagnostic: d})
	k.refused = append(k.refused, d)
}

// maxLeft bounds the charts that are taken away at one go, in bytes, since all of them
// are held meanwhile; see LeftOver.
const maxLeft = 64 << 20

// leftOver are the charts of ours in a folder that nothing refers to.
func leftOver(files Files, folder string, names []string, wanted map[string]bool) (out []ChartFile) {
	held := 0
	for _, name := range names {
		if wanted[name] || path.Ext(name) != chartEnding {
			continue
		}
		text, err := files.Read(path.Join(folder, name))
		if err == nil && chart.IsOurs(text) {
			if held += len(text); held > maxLeft {
				return out
			}
			out = append(out, ChartFile{Path: path.Join(folder, name), Old: text})
		}
	}
	return out
}

// LeftOver are further charts of ours that nothing refers to, once those of the result
// are taken away: there may be more than go at a time.
func (r *Result) LeftOver(files Files) []ChartFile {
	folder, wanted := ChartFolder(r.Path), map[string]bool{}
	for _, c := range slices.Concat(r.Charts, r.Kept) {
		if c.New != nil {
			wanted[path.Base(c.Path)] = true
		}
	}
	names, err := list(files, folder)
	if err != nil {
		return nil
	}
	return leftOver(files, folder, names, wanted)
}

// StripCharts lists the charts of a worksheet that a run made, to be removed.
func StripCharts(files Files, sheet string) []ChartFile {
	folder := ChartFolder(sheet)
	names, err := list(files, folder)
	if err != nil {
		return nil
	}
	return leftOver(files, folder, names, nil)
}
