package living

import (
	"context"
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

const notes = "# Notes </script> <!-- -->\n\n```working\nuse \"parts.md\"\nU = 4 V  # --> </script>\nW = 2 * U\nm = 3 * parts.mass\nlimit W <= 9 V\n  \"Less.\"\n```\n\nSo `W [V] = ?`.\n\n## Else\n\nNothing.\n"

func packOf(t *testing.T, text string) *packing.Pack {
	t.Helper()
	p := &packing.Pack{Made: "v1", Sheet: "shed/notes.md"}
	for name, text := range map[string]string{"shed/notes.md": text, "shed/parts.md": "```working\nmass = 30 g\n```\n", "shed/other.md": "```working\nx = 1 V\n```\n"} {
		if err := p.Add(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	return p
}

func opened(t *testing.T, text string) *Sheet {
	t.Helper()
	carried, err := json.Marshal(packOf(t, text))
	if err != nil {
		t.Fatal(err)
	}
	s, err := Open(t.Context(), carried)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func asking(t *testing.T, q question) []byte {
	t.Helper()
	text, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// answered is what a page's script gets.
func answered(t *testing.T, s *Sheet, q question) *reading.Answer {
	t.Helper()
	text, err := s.Work(t.Context(), asking(t, q))
	if err != nil {
		t.Fatal(err)
	}
	a := &reading.Answer{}
	if err := json.Unmarshal(text, a); err != nil {
		t.Fatal(err)
	}
	return a
}

// TestTried works a page with another value: only what differs comes back, and the
// limit that it breaks.
func TestTried(t *testing.T) {
	s := opened(t, notes)
	base := answered(t, s, question{})
	if len(base.Sections) == 0 || len(base.Inputs) == 0 {
		t.Fatalf("%+v", base)
	}
	a := answered(t, s, question{Since: base.Stamp, Changes: []reading.Change{{Name: "U", Text: "5 V"}}})
	if len(a.Broken) != 1 || len(a.Changed) != 1 || a.Changed[0].New != "10 V" || len(a.Sections) == 0 || len(a.Sections) >= len(base.Sections) {
		t.Errorf("%+v", a)
	}
	if again := answered(t, s, question{Since: a.Stamp}); len(again.Broken) != 0 || again.Stamp != base.Stamp {
		t.Errorf("put back it is %+v", again)
	}
	if wrong := answered(t, s, question{Since: base.Stamp, Changes: []reading.Change{{Name: "U", Text: "5 kg"}}}); len(wrong.Problems) == 0 {
		t.Error("a mass is taken for a voltage")
	}
	if _, err := s.Work(t.Context(), []byte("{")); err == nil {
		t.Error("half a question is answered")
	}
}

// TestSaved wants the changed worksheet with its results, and the page to stand on it
// from then on.
func TestSaved(t *testing.T) {
	s := opened(t, notes)
	base := answered(t, s, question{})
	text, err := s.Keep(t.Context(), asking(t, question{File: base.File, Since: base.Stamp, Changes: []reading.Change{{Name: "U", Text: "4.5 V"}}}))
	if err != nil {
		t.Fatal(err)
	}
	var got saved
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if got.Name != "notes.md" || !strings.Contains(got.Text, "U = 4.5 V  # -->") || !strings.Contains(got.Text, "`W [V] = 9 V`") || !strings.Contains(got.Text, "<!-- worked") {
		t.Errorf("%s:\n%s", got.Name, got.Text)
	}
	if now := answered(t, s, question{}); now.File == base.File || now.File != got.Answer.File {
		t.Error("the page stands on the old text")
	}
	if _, err := s.Keep(t.Context(), asking(t, question{File: base.File, Changes: []reading.Change{{Name: "U", Text: "6 V"}}})); err == nil {
		t.Error("a text that is no longer shown is changed")
	}
}

// TestAsked wants blocks that ask of other journals to stay as they were made.
func TestAsked(t *testing.T) {
	s := opened(t, notes+"\n```gather\nquantity where name == \"x\"\n```\n")
	a := answered(t, s, question{})
	for _, section := range a.Sections {
		if strings.Contains(section.HTML, "where name") {
			t.Errorf("sent: %s", section.HTML)
		}
	}
	if len(a.Order) != len(a.Sections)+1 {
		t.Errorf("%d of %d sections", len(a.Sections), len(a.Order))
	}
}

// TestDocument wants the evaluator, the sources and the script in a page whole,
// whatever the worksheet holds, and a policy that lets nothing else run.
func TestDocument(t *testing.T) {
	pack := packOf(t, notes)
	carried, err := pack.HTML()
	if err != nil {
		t.Fatal(err)
	}
	engine := Engine{Packed: []byte("\x5d\x00\x00\x40\x00 what is packed --> </script>"), Size: 99, Glue: "class Go {} // </script><!--"}
	text, err := Document(context.Background(), pack, carried, engine, page.Frame{})
	if err != nil {
		t.Fatal(err)
	}
	html := string(text)
	if n := strings.Count(html, "</script>"); n != 2 {
		t.Errorf("%d scripts end", n)
	}
	if n := strings.Count(html, "<!--"); n != 2 {
		t.Errorf("%d comments begin", n)
	}
	if policy := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(html)[1]; !regexp.MustCompile(`^default-src 'none'; style-src 'sha256-[^ ]*'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'; script-src 'sha256-[^ ]*' 'wasm-unsafe-eval'; worker-src blob:$`).MatchString(policy) {
		t.Error(policy)
	}
	if got, err := packing.Of(text); err != nil || got.Sheet != pack.Sheet {
		t.Error(err)
	}
	if !Is(text) || Is([]byte(carried)) {
		t.Error("whether it carries an evaluator is not known")
	}
	if _, err := Document(context.Background(), pack, carried, Engine{}, page.Frame{}); err == nil {
		t.Error("a page without an evaluator is made")
	}
}

// TestDense wants four bytes as five characters, and nothing that HTML reads.
func TestDense(t *testing.T) {
	var all []byte
	for i := range 257 {
		all = append(all, byte(i), 0xff, byte(i*7))
	}
	text := dense(all)
	if len(text) != (len(all)+3)/4*5 || strings.ContainsAny(text, "<>&-\"'\\ \n") || len(digits) != 85 {
		t.Errorf("%d characters of %d: %s", len(text), len(all), text)
	}
	if dense([]byte{0, 0, 0, 0}) != "!!!!!" || dense([]byte{0, 0, 0, 86}) != "!!!##" {
		t.Error(dense([]byte{0, 0, 0, 86}))
	}
}
