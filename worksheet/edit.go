package worksheet

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/region"
)

// An edit replaces the bytes from start to end.
type edit struct {
	start, end int
	text       string
}

// splice makes the edits, which do not overlap. Without any, it gives back the
// text itself.
func splice(text []byte, edits []edit) []byte {
	if len(edits) == 0 {
		return text
	}
	slices.SortStableFunc(edits, func(a, b edit) int { return cmp.Compare(a.start, b.start) })
	size := len(text)
	for _, e := range edits {
		size += len(e.text)
	}
	out := make([]byte, 0, size)
	at := 0
	for _, e := range edits {
		out = append(append(out, text[at:e.start]...), e.text...)
		at = e.end
	}
	return append(out, text[at:]...)
}

// regionEdits makes and renews the regions of all blocks, given what they say.
// Prefix is how a new one continues the containers of its block.
func regionEdits(doc *markdown.Document, say [][]string, prefix func(string) string) (edits []edit) {
	for i, block := range doc.Blocks {
		lines := say[i]
		if len(lines) == 0 {
			continue
		}
		if block.Region < 0 {
			edits = append(edits, insertion(block, lines, prefix(block.Prefix)))
			continue
		}
		r := doc.Regions[block.Region]
		old := strings.Split(string(doc.Source[r.Inner.Start:r.Inner.End]), "\n")
		if !region.Same(old, strings.Count(r.Prefix, ">"), lines) {
			edits = append(edits, edit{r.Inner.Start, r.Inner.End, inside(lines, r.Prefix, r.EOL)})
		}
	}
	return edits
}

// blockLines is what each block's region says, as far as the time goes.
func blockLines(ctx context.Context, doc *markdown.Document, r *report.Report) [][]string {
	say := make([][]string, len(doc.Blocks))
	for i := range min(len(say), len(r.Blocks)) {
		if ctx.Err() != nil {
			break
		}
		say[i] = region.Lines(r.Blocks[i], doc.Blocks[i].Nested)
	}
	return say
}

// emptiedRegions are those whose blocks have nothing left to say. They go as a
// whole: the file is then what it would be had there never been one.
func emptiedRegions(doc *markdown.Document, say [][]string) (list []markdown.Region) {
	for i, block := range doc.Blocks {
		if block.Region >= 0 && len(say[i]) == 0 {
			list = append(list, doc.Regions[block.Region])
		}
	}
	return list
}

// emptyEdits leaves a blank line between the markers of regions that stay.
func emptyEdits(doc *markdown.Document, list []markdown.Region) (edits []edit) {
	for _, r := range list {
		empty := strings.TrimRight(r.Prefix, " \t") + r.EOL
		if string(doc.Source[r.Inner.Start:r.Inner.End]) != empty {
			edits = append(edits, edit{r.Inner.Start, r.Inner.End, empty})
		}
	}
	return edits
}

// insertion is a new region. It goes between the closing fence and its line end,
// so that a file without a final newline stays so.
func insertion(block markdown.Block, lines []string, prefix string) edit {
	blank := strings.TrimRight(prefix, " \t")
	text := block.EOL + blank + block.EOL + prefix + region.Open + block.EOL +
		inside(lines, prefix, block.EOL) + prefix + region.Close
	return edit{block.End, block.End, text}
}

// inside is what stands between the marker lines: a blank line, the content, a
// blank line, each with the container's prefix.
func inside(lines []string, prefix, eol string) string {
	blank := strings.TrimRight(prefix, " \t")
	var out strings.Builder
	out.WriteString(blank + eol)
	for _, l := range lines {
		if l == "" {
			out.WriteString(blank + eol)
			continue
		}
		out.WriteString(prefix + l + eol)
	}
	out.WriteString(blank + eol)
	return out.String()
}

// inlineEdits refreshes the inline values that differ from what was worked.
func inlineEdits(doc *markdown.Document, r *report.Report) (edits []edit) {
	for i, v := range doc.Inline {
		if i >= len(r.Inline) {
			break
		}
		shown := inlineText(r.Inline[i].Shown)
		if shown == v.Shown {
			continue
		}
		if v.InCell {
			shown = strings.ReplaceAll(shown, "|", `\|`)
		}
		edits = append(edits, edit{v.Value.Start, v.Value.End, " " + shown})
	}
	return edits
}

// inlineText is a value fit for a code span: on one line, without ticks, and
// never empty, since the span would then look as if it had not been worked.
func inlineText(shown string) string {
	shown = strings.Join(strings.Fields(strings.ReplaceAll(shown, "`", "'")), " ")
	if shown == "" {
		return "?"
	}
	return shown
}

// orphanEdits takes out the regions that follow no block, and says so.
func orphanEdits(doc *markdown.Document) (edits []edit, notes []message.Diagnostic) {
	for _, r := range doc.Regions {
		if r.Block >= 0 {
			continue
		}
		edits = append(edits, edit{start: r.Whole.Start, end: r.Whole.End})
		notes = append(notes, message.Diagnostic{Span: r.Open,
			Summary: "a worked region that followed no working block was removed"})
	}
	return edits, notes
}
