package worksheet

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet/region"
)

// TestPathological has inputs on which Markdown parsers are known to take time
// that grows with the square of their length. The bound is wide: what it must
// catch takes minutes.
func TestPathological(t *testing.T) {
	const size = 100_000
	fill := func(part string) string { return strings.Repeat(part, size/len(part)) }
	for name, text := range map[string]string{
		"brackets":         fill("![[]("),
		"ticks":            fill("` "),
		"ticks, odd":       fill("``` `` ` "),
		"open comments":    fill("a <!-- "),
		"open tags":        fill("<a "),
		"open addresses":   fill("<https://"),
		"stars":            fill("*a_ "),
		"quotes by line":   fill("> a\n"),
		"deeper and out":   fill(strings.Repeat("> ", 90) + "a\n\n"),
		"lists":            fill("- a\n  - b\n"),
		"table rows":       "| a |\n| - |\n" + fill("| b |\n"),
		"table heads":      fill("a|") + "\n" + fill("-|") + "\n",
		"markers":          fill("<!-- table: t -->\n"),
		"half markers":     fill("<!-- worked\n"),
		"blocks":           fill("```working\nrow a | 1\n```\n"),
		"conflicts":        fill("<<<<<<< a\n=======\n"),
		"inline values":    fill("`a [V] = 1 V` "),
		"definitions":      fill("[a]: b\n"),
		"blank lines":      fill("\n"),
		"lone CR":          fill("a\r"),
		"one long line":    fill("a"),
		"fences, all open": fill("> ```\n\n"),
	} {
		start := time.Now()
		works(t, name, []byte(text+"\n\n"+one))
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("%s: took %v", name, took)
		} else if took > time.Second {
			t.Logf("%s: took %v", name, took)
		}
	}
}

// TestWorkText goes the whole way, with the language itself.
func TestWorkText(t *testing.T) {
	files := folder{
		"a/notes.md": "It is `P [W] = …`.\n\n```working\nuse \"parts.md\"\nP [W] = 2 * parts.P\n```\n",
		"a/parts.md": "```working\nP = 3 V * 1 A\n```\n",
	}
	r := WorkText(t.Context(), files, "a/notes.md", []byte(files["a/notes.md"]))
	if len(r.Refused) > 0 || len(r.Report.Errors) > 0 {
		t.Fatal(r.Refused, r.Report.Errors)
	}
	if !bytes.Contains(r.Output, []byte("`P [W] = 6 W`")) || bytes.Contains(r.Output, []byte(region.Open)) {
		t.Errorf("got\n%s", r.Output)
	}
}

// TestLastBlockDeleted takes the region away that the last block left behind.
func TestLastBlockDeleted(t *testing.T) {
	text := "Text.\n\n<!-- worked: rewritten by every run -->\n\n| `x` | 5 V |\n\n<!-- /worked -->\n\nMore.\n"
	r := WorkText(t.Context(), nil, "a.md", []byte(text))
	if bytes.Contains(r.Output, []byte("5 V")) || len(r.Notes) != 1 {
		t.Errorf("%q, notes %v", r.Output, r.Notes)
	}
	if again := WorkText(t.Context(), nil, "a.md", r.Output); again.Changed() {
		t.Errorf("a second run gives %q", again.Output)
	}
}

// TestWritten follows every byte outside of regions to its place in the output.
func TestWritten(t *testing.T) {
	text := "# é\n\n```working\na = 3V\nb = 2 V * 1\n```\n\nIt is `b [V] = ?` now.\n\n```working\nc = 5A\n```\n\nThe end.\n"
	r := WorkText(t.Context(), nil, "a.md", []byte(text))
	for _, part := range []string{"# é", "a = 3V", "It is", "now.", "c = 5A", "The end."} {
		from, to := strings.Index(text, part), strings.Index(string(r.Output), part+"\n")
		if part == "It is" {
			to = strings.Index(string(r.Output), part)
		}
		if got := r.Written(from); got != to {
			t.Errorf("%q stands at %d, want %d", part, got, to)
		}
	}
}

// TestGrown has a short page whose results would be too large for the next run:
// by far, which is known before they are laid out, and by little.
func TestGrown(t *testing.T) {
	row, columns := make([]string, 200), make([]report.Column, 200)
	for i := range row {
		row[i] = "12.345 mA·h"
	}
	for _, rows := range []int{100_000, MaxFile / 200 / 12} {
		table := report.Table{Name: "t", Columns: columns, Rows: slices.Repeat([][]string{row}, rows)}
		w := runner{work: func(context.Context, *sheet.Sheet, sheet.Loader) *report.Report {
			return &report.Report{Blocks: []report.Block{{Tables: []report.Table{table}}}}
		}}
		r := w.run(t.Context(), nil, "a.md", []byte(one))
		if len(r.Refused) != 1 || r.Changed() || !strings.Contains(r.Refused[0].Summary, "larger than 16 MiB") {
			t.Errorf("%d rows: refused %v", rows, r.Refused)
		}
	}
}
