package living

import (
	"context"
	"encoding/json"
	"regexp"
	"slices"
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
	s, err := Open(t.Context(), carried, nil)
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
	got := kept(t, s, question{File: base.File, Since: base.Stamp, Changes: []reading.Change{{Name: "U", Text: "4.5 V"}}})
	if len(got.Files) != 1 || got.Files[0].Name != "notes.md" || got.Files[0].Path != "shed/notes.md" {
		t.Fatalf("%+v", got.Files)
	}
	if text := got.Files[0].Text; !strings.Contains(text, "U = 4.5 V  # -->") || !strings.Contains(text, "`W [V] = 9 V`") || !strings.Contains(text, "<!-- worked") {
		t.Error(text)
	}
	if now := answered(t, s, question{}); now.File == base.File || now.File != got.Answer.File {
		t.Error("the page stands on the old text")
	}
	if _, err := s.Keep(t.Context(), asking(t, question{File: base.File, Changes: []reading.Change{{Name: "U", Text: "6 V"}}})); err == nil {
		t.Error("a text that is no longer shown is changed")
	}
}

// kept is what a page's script gets to save.
func kept(t *testing.T, s *Sheet, q question) (got saved) {
	t.Helper()
	text, err := s.Keep(t.Context(), asking(t, q))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	return got
}

// TestSavedElsewhere wants every file that a change bears on: the used page and the
// data that hold it, with their results, and the page whose results it moves. An
// evaluator that starts again begins from them.
func TestSavedElsewhere(t *testing.T) {
	p := &packing.Pack{Made: "v1", Sheet: "shed/notes.md"}
	for name, text := range map[string]string{
		"shed/notes.md":       "```working\nuse \"parts/notes.md\" as parts\nuse \"log.csv\"\nm = 3 * parts.mass\nU = max(log.U)\n```\n\nSo `m [g] = ?`.\n",
		"shed/parts/notes.md": "```working\nmass = 30 g\ntwice = 2 * mass\n```\n\nTwice that is `twice [g] = ?`.\n",
		"shed/log.csv":        "t [s],U [V]\n0,1.5\n1,2.5\n",
	} {
		if err := p.Add(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	carried, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Open(t.Context(), carried, nil)
	if err != nil {
		t.Fatal(err)
	}
	base := answered(t, s, question{})
	got := kept(t, s, question{File: base.File, Since: base.Stamp, Changes: []reading.Change{{Name: "parts.mass", Text: "31 g"}, {Name: "log[2].U", Text: "2.75"}}})
	files := map[string]string{}
	for _, f := range got.Files {
		files[f.Name] = f.Text
	}
	for name, says := range map[string][]string{
		"shed-parts-notes.md": {"mass = 31 g\n", "`twice [g] = 62 g`"},
		"shed-notes.md":       {"m = 3 * parts.mass\n", "`m [g] = 93 g`", "| `U`      | 2.75 V |"},
		"log.csv":             {"t [s],U [V]\n0,1.5\n1,2.75\n"},
	} {
		for _, text := range says {
			if !strings.Contains(files[name], text) {
				t.Errorf("%s lacks %q: %q", name, text, files[name])
			}
		}
	}
	if len(got.Files) != 3 || len(got.Answer.Problems) > 0 {
		t.Errorf("%d files, %+v", len(got.Files), got.Answer.Problems)
	}
	changed := map[string]string{}
	for _, f := range got.Files {
		changed[f.Path] = f.Text
	}
	text, err := json.Marshal(changed)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Open(t.Context(), carried, text)
	if err != nil {
		t.Fatal(err)
	}
	if a := answered(t, again, question{}); a.File != got.Answer.File || a.Stamp != got.Answer.Stamp {
		t.Errorf("started again it stands at %s, %s; it stood at %s, %s", a.File, a.Stamp, got.Answer.File, got.Answer.Stamp)
	}
	if _, err := Open(t.Context(), carried, []byte(`{"../x.md":"no"}`)); err == nil {
		t.Error("a file is changed that is not carried")
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
	if len(a.Order) != len(a.Sections)+1 || len(a.AsMade) > 0 {
		t.Errorf("%d of %d sections, %q stay as made", len(a.Sections), len(a.Order), a.AsMade)
	}
	stays := func(a *reading.Answer) bool { return len(a.AsMade) == 1 && slices.Contains(a.Order, a.AsMade[0]) }
	if tried := answered(t, s, question{Since: a.Stamp, Changes: []reading.Change{{Name: "U", Text: "4.5 V"}}}); !stays(tried) {
		t.Errorf("tried, %q of %q are told to stay as made", tried.AsMade, tried.Order)
	}
	if back := answered(t, s, question{Since: a.Stamp}); len(back.AsMade) > 0 {
		t.Errorf("put back, %q stay as made", back.AsMade)
	}
	got := kept(t, s, question{File: a.File, Changes: []reading.Change{{Name: "U", Text: "4.5 V"}}})
	if !stays(got.Answer) || !stays(answered(t, s, question{})) {
		t.Errorf("saved, %q stay as made", got.Answer.AsMade)
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
	engine := Engine{Packed: []byte("\xfd7zXZ\x00 what is packed --> </script>"), Unpacker: "const packed = '</script><!--';", Glue: "class Go {} // </script><!--"}
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
	// Two scripts may run: its own, and the one that has a long page laid out bit by bit.
	if policy := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(html)[1]; !regexp.MustCompile(`^default-src 'none'; style-src 'sha256-[^ ]*'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'; script-src 'sha256-[^ ]*' 'sha256-[^ ]*' 'wasm-unsafe-eval'; worker-src blob:$`).MatchString(policy) {
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
