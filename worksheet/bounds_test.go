package worksheet

import (
	"strings"
	"testing"

	"inkwing/worksheet/markdown"
)

// TestTooMuch refuses what holds too much of a kind, and takes as much as the bound.
func TestTooMuch(t *testing.T) {
	block := "```working\na = 1 V\n```\n\n"
	for says, page := range map[string]func(n int) string{
		"lines of working blocks": func(n int) string { return "```working\n" + strings.Repeat("#\n", MaxLines+n) + "```\n" },
		"bytes of working blocks": func(n int) string {
			return "```working\n" + strings.Repeat("#"+strings.Repeat(" ", 1022)+"\n", MaxBlocks/1024-1) + "#" + strings.Repeat(" ", 1024-len("```working\n#\n```")+n) + "\n```\n"
		},
		"values in its prose": func(n int) string { return block + strings.Repeat("`a [V] = ?`\n", MaxInline+n) },
		"with this table the file has more than": func(n int) string {
			row := strings.Repeat("|1", 2000)
			return block + "<!-- table: t -->\n\n" + row + "|\n" + strings.Repeat("|-", 2000) + "|\n" + strings.Repeat(row+"|\n", markdown.MaxCells/2001-1+n)
		},
	} {
		r := works(t, "a.md", []byte(page(1)))
		if len(r.Refused) != 1 || !strings.Contains(r.Refused[0].Summary, says) || r.Refused[0].Hint == "" || r.Changed() {
			t.Errorf("%s: refused %v", says, r.Refused)
		}
		if r := works(t, "a.md", []byte(page(0))); len(r.Refused) > 0 {
			t.Errorf("%s: as much as the bound is refused: %v", says, r.Refused)
		}
	}
	files := folder{
		"wide.csv":   "a" + strings.Repeat(",", maxWide+1) + "\n1\n",
		"commas.csv": strings.Repeat(strings.Repeat(",", 100)+"\n", MaxCells/100),
	}
	for name, says := range map[string]string{"wide.csv": "has a row of more than", "commas.csv": "has more than 2000000 cells"} {
		r := WorkText(t.Context(), files, "a.md", []byte("```working\nuse \""+name+"\" as d\n```\n"))
		if len(r.Report.Errors) != 1 || !strings.Contains(r.Report.Errors[0].Summary, says) {
			t.Errorf("%s: %v", name, r.Report.Errors)
		}
	}
}

// TestTooMuchForPage refuses a page of what a run still takes: too many lines, and
// results that are too large by far.
func TestTooMuchForPage(t *testing.T) {
	for text, says := range map[string]string{
		"```working\n" + strings.Repeat("#\n", maxPageLines+1) + "```\n":                                     "a page takes",
		"```working\n" + strings.Repeat("#\n", maxPageLines) + "```\n":                                       "",
		"```working\ns = \"" + strings.Repeat("x", 60_000) + "\"\nn = 1\nvary n in 1 to 1000 by 1: s\n```\n": "larger than 16 MiB",
	} {
		made, refused := Page(t.Context(), folder{}, "a.md", []byte(text), nil)
		if says == "" && made == nil || says != "" && (len(refused) != 1 || !strings.Contains(refused[0].Summary, says) || refused[0].Hint == "") {
			t.Errorf("refused %v, not %q", refused, says)
		}
	}
}
