package worksheet

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/region"
)

// A sample is Markdown that nobody here wrote.
type sample struct {
	name string
	text []byte
}

// corpus is the CommonMark examples and every Markdown file of the modules that
// the project depends on.
func corpus(t testing.TB) (list []sample) {
	dirs := modules(t, "all")
	spec := filepath.Join(modules(t, "github.com/yuin/goldmark")[0], "_test", "spec.json")
	var examples []struct {
		Markdown string
		Example  int
	}
	if err := json.Unmarshal(read(t, spec), &examples); err != nil || len(examples) != 652 {
		t.Fatal(len(examples), "examples of CommonMark 0.31.2 instead of 652:", err)
	}
	for _, e := range examples {
		list = append(list, sample{fmt.Sprintf("spec %d", e.Example), []byte(e.Markdown)})
	}
	for _, dir := range dirs {
		list = append(list, files(t, dir)...)
	}
	for name, text := range handmade {
		list = append(list, sample{name, []byte(text)})
	}
	return append(list, extra(t)...)
}

// handmade has what the real files lack.
var handmade = map[string]string{
	"BOM":           "\ufeff# A\n\ntext\n",
	"lone CR":       "a\rb\r\n\r- c\r\rd\n",
	"NUL":           "a\x00b\n\n> \x00\n\n- c\x00\n",
	"U+2028":        "a\u2028b\u2029\n\nc\u0085d\n",
	"not UTF-8":     "a\xff\xfe\n\n- \xc3\n\n> b\xed\xa0\x80\n",
	"only spaces":   "   \n\t\n  ",
	"ends in CR":    "a\n\nb\r",
	"front matter":  "---\na: 1\n---\n\ntext\n",
	"tabs":          "-\ta\n\n\tb\n\n>\tc\n>\n>\t\td\n",
	"unclosed html": "a\n\n<!-- b\n\nc\n",
	"empty":         "",
}

// modules asks for the folders of the project's modules in the cache.
func modules(t testing.TB, pattern string) (dirs []string) {
	t.Helper()
	out, err := exec.Command("go", "list", "-m", "-f", "{{if not .Main}}{{.Dir}}{{end}}", pattern).Output()
	if err != nil {
		t.Fatal("go list:", err)
	}
	return strings.Fields(string(out))
}

func files(t testing.TB, dir string) (list []sample) {
	err := filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() && strings.EqualFold(filepath.Ext(name), ".md") {
			list = append(list, sample{name, read(t, name)})
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// corpusDir is a folder of further files, such as the specification's text and
// large changelogs: testdata/corpus.sh fetches some.
var corpusDir = flag.String("corpus", "", "folder of further Markdown files to hold to the promises")

func extra(t testing.TB) []sample {
	if *corpusDir == "" {
		return nil
	}
	return files(t, *corpusDir)
}

// TestCorpus holds every file to the promises: without a working block it is
// untouched; with some put in at random places only regions appear, a second
// run changes nothing, and stripping gives the text back.
func TestCorpus(t *testing.T) {
	list := corpus(t)
	worked, size := 0, 0
	for i, s := range list {
		if r := works(t, s.name, s.text); r.Changed() || r.Blocks > 0 {
			t.Errorf("%s: has no working block, but was touched", s.name)
		}
		random := rand.New(rand.NewPCG(uint64(i), 2))
		for range max(1, min(20, 20_000/(len(s.text)+1))) {
			if promises(t, s.name, sprinkle(random, s.text)) {
				worked++
			}
		}
		size += len(s.text)
	}
	t.Logf("%d files, %d bytes, %d variants worked", len(list), size, worked)
	if worked < len(list) {
		t.Errorf("only %d variants of %d files were worked", worked, len(list))
	}
}

// sprinkle puts one to three blocks at the beginnings of random lines, bare or
// in containers.
func sprinkle(random *rand.Rand, text []byte) []byte {
	for range 1 + random.IntN(3) {
		starts := []int{0}
		for i, c := range text {
			if c == '\n' {
				starts = append(starts, i+1)
			}
		}
		at := starts[random.IntN(len(starts))]
		text = bytes.Join([][]byte{text[:at], []byte(block(random)), text[at:]}, nil)
	}
	return text
}

func block(random *rand.Rand) string {
	first := []string{"", "", "> ", "- ", "   ", "1. > ", "-\t", ">\t"}
	then := []string{"", "", "> ", "  ", "  ", "   > ", "\t", ">\t"}
	i, eol := random.IntN(len(first)), []string{"\n", "\r\n"}[random.IntN(2)]
	lines := []string{"```working", "row a_1 | 温 1 V | a note", "danger Hot | b", "```"}
	if random.IntN(4) == 0 {
		lines = append([]string{""}, append(lines, "")...)
	}
	for k, l := range lines {
		lines[k] = then[i] + l
		if strings.HasPrefix(l, "```w") {
			lines[k] = first[i] + l
		}
	}
	return strings.Join(lines, eol) + eol
}

// promises holds a text to the promises; it reports whether it was worked. A text
// in which a block's fence is not closed, or that is not UTF-8, is refused whole.
func promises(t testing.TB, name string, text []byte) bool {
	t.Helper()
	r := works(t, name, text)
	if len(r.Refused) > 0 {
		if r.Changed() {
			t.Fatalf("%s: refused and touched", name)
		}
		return false
	}
	again := works(t, name, r.Output)
	if again.Changed() || len(again.Refused) > 0 || again.Blocks != r.Blocks {
		t.Fatalf("%s: a second run: %v, %d blocks of %d\ninput  %q\nfirst  %q\nsecond %q", name, again.Refused, again.Blocks, r.Blocks, text, r.Output, again.Output)
	}
	stripped, refused := Strip(t.Context(), name, r.Output, Force)
	want, _ := Strip(t.Context(), name, text, Force)
	if len(refused) > 0 && r.Blocks > 0 || !hasOwn(text) && !bytes.Equal(stripped, want) {
		t.Fatalf("%s: stripped %v\ninput %q\nran   %q\ngives %q", name, refused, text, r.Output, stripped)
	}
	if got, want := tablesOf(r.Output), tablesOf(text); r.Blocks > 0 && got != want {
		t.Fatalf("%s: tables read otherwise\ninput %q\nran   %q\n%s\nwant %s", name, text, r.Output, got, want)
	}
	return r.Blocks > 0
}

// tablesOf is what the named tables of a text hold.
func tablesOf(text []byte) string {
	var out strings.Builder
	for _, table := range markdown.Parse("", text).Tables {
		fmt.Fprintf(&out, "%s:", table.Name.Name)
		for _, row := range append([][]syntax.Cell{table.Head}, table.Rows...) {
			for _, c := range row {
				out.WriteString(" " + c.Text + " |")
			}
		}
		fmt.Fprintf(&out, " %d problems\n", len(table.Problems))
	}
	return out.String()
}

// hasOwn reports whether a text has inline values, which a run refreshes and
// stripping leaves.
func hasOwn(text []byte) bool { return len(markdown.Parse("", text).Inline) > 0 }

// FuzzPromises tries the promises on anything.
func FuzzPromises(f *testing.F) {
	for _, text := range handmade {
		f.Add([]byte(text + one))
	}
	names, _ := filepath.Glob("testdata/*.md")
	for _, name := range names {
		f.Add(read(f, name))
	}
	marked := one + "\n" + region.Open + "\n\n> x\n\n" + region.Close + "\n"
	f.Add([]byte(marked))
	f.Add([]byte("> " + strings.ReplaceAll(marked, "\n", "\n> ")))
	f.Add([]byte("- " + strings.ReplaceAll(marked, "\n", "\r\n  ") + "\n" + region.Open + region.Close))
	f.Add([]byte("a `a [V] =\n 1`\n\n|`a [V] =`|\n|--|\n" + one + "<<<<<<< \n=======\n>>>>>>> "))
	f.Fuzz(func(t *testing.T, text []byte) { promises(t, "fuzz", text) })
}

// fragments are what Markdown is made of, as far as it can trouble us.
var fragments = []string{
	"```working\n", "row a | 1 V\n", "```\n", "```\r\n", "~~~\n", "~~~working\n", "```", "> ", ">", "- ", "1. ", "  ", "    ", "\t", "\n", "\n", "\n\n", "\r\n", "\r",
	region.Open, region.Open + "\n", "\n" + region.Close + "\n", region.Close, "`a [V] = 1 V`", "`a [V] =\n", "`", "| a | b |\n| --- | --- |\n", "| `a [V] =` | \\| |\n",
	"<!-- table: t -->\n", "<!-- table: u -->\n\n| a |\n| - |\n| 1 |\n", "|-|\n", "a|b\n", " \t", "  \t```\n", "<<<<<<< x\n", "=======\n", ">>>>>>> y\n", "<div>\n", "</div>\n", "<!--\n", "-->\n", "text ", "text\n", "# head\n", "---\n", "---\ntitle: x\n---\n", "[a]: b\n", "* ", "\ufeff", one, one, one + "\n", "> " + strings.ReplaceAll(one, "\n", "\n> "), "- " + strings.ReplaceAll(one, "\n", "\n  "),
}

// TestGenerated holds random sequences of fragments to the promises.
func TestGenerated(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	worked := 0
	for range 40_000 {
		var text []byte
		for range 1 + random.IntN(14) {
			text = append(text, fragments[random.IntN(len(fragments))]...)
		}
		if promises(t, "generated", text) {
			worked++
		}
	}
	if worked < 5_000 {
		t.Errorf("only %d texts were worked", worked)
	}
}
