package worksheet

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// testdata/format.sh has the samples written, lets the common formatter and
// linter at them, and then has what the formatter made of them checked here.
var (
	samplesDir   = flag.String("samples", "", "write worked samples to this folder")
	formattedDir = flag.String("formatted", "testdata", "folder of files that a run must leave alone")
)

// TestSamples writes worked samples: short-*.md have lines that fit, which no
// formatter may change; long-*.md have lines that one may wrap or join.
func TestSamples(t *testing.T) {
	dir := *samplesDir
	if dir == "" {
		dir = t.TempDir()
	}
	random := rand.New(rand.NewPCG(3, 4))
	for i := range 120 {
		kind := []string{"short", "long"}[i%2]
		name := filepath.Join(dir, fmt.Sprintf("%s-%d.md", kind, i))
		worked := works(t, name, []byte(madeUp(random, kind == "long"))).Output
		for _, l := range strings.Split(string(worked), "\n") {
			if kind == "short" && len([]rune(l)) > 80 {
				t.Errorf("%s: %q is too long", name, l)
			}
		}
		if works(t, name, worked).Changed() {
			t.Errorf("%s: a second run changes it", name)
		}
		if err := os.WriteFile(name, worked, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestFormatted has files that a run must leave alone, whoever formatted them.
func TestFormatted(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(*formattedDir, "*.md"))
	if err != nil || len(names) == 0 {
		t.Fatal("no files in", *formattedDir, err)
	}
	for _, name := range names {
		if strings.Contains(name, ".input.") {
			continue
		}
		if r := works(t, name, read(t, name)); r.Changed() || len(r.Refused) > 0 {
			t.Errorf("%s: refused %v, or changed to\n%s", name, r.Refused, r.Output)
		}
	}
}

// madeUp is a worksheet that the formatter leaves alone, apart from what a run
// will put into it: blocks at the top and in containers.
func madeUp(random *rand.Rand, long bool) string {
	var out strings.Builder
	out.WriteString("# A page\n\nThe value is `q0 [V] = …` here.\n")
	for _, c := range [][2]string{{"", ""}, {"- ", "  "}, {"> ", "> "}, {"1. ", "   "}, {"", ""}} {
		out.WriteString("\nBlock:\n\n")
		if strings.TrimSpace(c[0]) != "" && c[0] != "> " {
			out.WriteString(c[0] + "Item\n\n")
			c[0] = c[1]
		}
		out.WriteString(c[0] + "```working\n")
		for _, l := range blockText(random, long) {
			out.WriteString(c[1] + strings.TrimRight(l, " |") + "\n")
		}
		out.WriteString(c[1] + "```\n")
	}
	return out.String()
}

// pieces are what makes texts nasty: marks, wide letters, names, escapes.
var pieces = []string{
	"V_full", "a*b", "温度", "（A）", "Ω", "µF", "m/s²", "min⁻¹", "±", "≤", "n_x", "x_θR", "[V]", "(x)", "<b>", "a|b", "~x~", "$5", "&amp;",
	"#1", "1.", "-", "+", "10 %", "90°", "1_000", "_x", "x_", "**", "\\", "!", "·", "—", "é", "e\u0301", "한글", "word", "`code`", "`a||b`", "`", "text", "and", "so", "https://example.org/a",
}

func phrase(random *rand.Rand, words int) string {
	var list []string
	for range words {
		list = append(list, pieces[random.IntN(len(pieces))])
	}
	return strings.ReplaceAll(strings.Join(list, " "), " | ", " ")
}

func blockText(random *rand.Rand, long bool) []string {
	words := 2
	if long {
		words = 14
	}
	lines := []string{"row q0 | 1 V"}
	for i := range 1 + random.IntN(4) {
		note := ""
		if i == 2 || long {
			note = phrase(random, random.IntN(words))
		}
		lines = append(lines, fmt.Sprintf("row q_%d | %s | %s", i, phrase(random, 1), note))
	}
	if random.IntN(2) == 0 {
		lines = append(lines, "wait later | V_x")
	}
	if random.IntN(2) == 0 {
		lines = append(lines, fmt.Sprintf("limit V_full <= %s | 2.5 V | 2.7 V | 7.4 %%", phrase(random, 1)))
	}
	if random.IntN(2) == 0 {
		lines = append(lines, "limit V_full <= 2.7 V | 2.5 V | 2.7 V | 7.4 %")
	}
	if random.IntN(2) == 0 {
		lines = append(lines, "listed")
	}
	if random.IntN(3) == 0 {
		lines = append(lines, fmt.Sprintf("table s_x | `V_full [V]` | %s | Note", phrase(random, 1)))
		for range 1 + random.IntN(3) {
			lines = append(lines, fmt.Sprintf("cells 12.5 | %s | %s", phrase(random, 1), phrase(random, words/2)))
		}
		lines = append(lines, "says each value is `V_full [V]`", "table | V | n | Note", "waits V_x")
	}
	said := map[string]string{"broken": " | q_1 <= 2 V", "danger": " | ride | Hold it.", "warning": " | ride, top", "advice": " | top"}
	for _, verb := range []string{"note", "broken", "danger", "warning", "advice"} {
		if random.IntN(3) == 0 {
			lines = append(lines, verb+" Here "+phrase(random, words)+said[verb])
		}
	}
	if random.IntN(3) == 0 {
		lines = append(lines, fmt.Sprintf("fail p | p | no %s | or %s", phrase(random, words/2), phrase(random, words/2)))
	}
	return lines
}
