package reading_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

// A folder is files in memory.
type folder map[string]string

func (f folder) Read(name string) ([]byte, error) {
	if text, ok := f[name]; ok {
		return []byte(text), nil
	}
	return nil, fs.ErrNotExist
}

func (f folder) List(string) ([]string, error) { return nil, nil }

const glider = "# Glider\n\nIt weighs `weight [N] = ?` in all.\n\n## Mass\n\n```working\nmass = 350 g ± 5 g  # with the pack\nseries = 5\nweight = mass * 9.81 m/s^2\nlimit weight <= 4 N \"make it lighter\"\n```\n\n## Pack\n\n```working\nV_cell = 2.50 V\nV_full = series * V_cell\n```\n"

func open(t *testing.T, text string) *reading.Room {
	t.Helper()
	return reading.Open(folder{}, "glider.md", []byte(text), reading.Options{})
}

func work(t *testing.T, r *reading.Room, since string, changes ...reading.Change) *reading.Answer {
	t.Helper()
	a, err := r.Work(t.Context(), since, changes)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func ids(a *reading.Answer) (list []string) {
	for _, s := range a.Sections {
		list = append(list, s.ID)
	}
	return list
}

// TestSectionsThatDiffer sends all at first, and then what a change touches.
func TestSectionsThatDiffer(t *testing.T) {
	r := open(t, glider)
	first := work(t, r, "")
	if len(first.Sections) != len(first.Order) || len(first.Order) != 6 {
		t.Fatalf("sections %q of %q", ids(first), first.Order)
	}
	if again := work(t, r, first.Stamp); len(again.Sections) != 0 || again.Stamp != first.Stamp || again.Inputs != nil {
		t.Errorf("nothing changed, but %q come, stamp %s", ids(again), again.Stamp)
	}
	tried := work(t, r, first.Stamp, reading.Change{Name: "V_cell", Text: "2.70 V"})
	if got := ids(tried); !slices.Equal(got, []string{"b-pack"}) {
		t.Errorf("a cell's voltage touches %q", got)
	}
	if back := work(t, r, tried.Stamp); !slices.Equal(ids(back), []string{"b-pack"}) || back.Stamp != first.Stamp {
		t.Errorf("put back: %q", ids(back))
	}
	if unknown := work(t, r, "an old one"); len(unknown.Sections) != len(first.Order) {
		t.Errorf("for a stamp that is not known come %q", ids(unknown))
	}
}

// TestMoved tells what moved by a save before the page is worked: once, and nothing where it
// cannot be told.
func TestMoved(t *testing.T) {
	heavier := []byte(strings.Replace(glider, "350 g", "385 g", 1))
	r := open(t, glider)
	if got := r.Moved(t.Context()); got != nil {
		t.Errorf("of a page that nobody has seen: %+v", got)
	}
	work(t, r, "")
	if got := r.Moved(t.Context()); got != nil {
		t.Errorf("of what is known: %+v", got)
	}
	r.Save(heavier)
	if got := r.Moved(t.Context()); len(got) != 1 || got[0] != (reading.Value{Name: "weight", Old: "3.434 N", New: "3.777 N", Share: "+10 %", ID: "q-weight", Asked: true}) {
		t.Errorf("heavier: %+v", got)
	}
	work(t, r, "")
	for _, same := range []string{string(heavier), string(heavier) + "\nMore.\n"} {
		if r.Save([]byte(same)); len(r.Moved(t.Context())) != 0 {
			t.Errorf("%q moves %+v", same, r.Moved(t.Context()))
		}
	}
	r.Save([]byte(strings.Replace(string(heavier), "mass =", "mass = 3 +", 1)))
	if got := r.Moved(t.Context()); len(got) != 2 || got[0].New != "—" {
		t.Errorf("what fails: %+v", got)
	}
	r.Save([]byte(glider))
	stopped, stop := context.WithCancel(t.Context())
	stop()
	if r.Moved(stopped) != nil || len(r.Moved(t.Context())) != 1 {
		t.Error("what was stopped is told, or stays")
	}
	if r.Lose("is gone"); r.Moved(t.Context()) != nil {
		t.Error("of what is gone")
	}
}

// TestGlance tells what moves by values alone, as the answer then has it, before the page was
// ever worked and after; and nothing where that answer has something else to say.
func TestGlance(t *testing.T) {
	r := open(t, glider)
	heavier := []reading.Change{{Name: "mass", Text: "385 g ± 9 g"}}
	for _, when := range []string{"before", "after"} {
		got := r.Glance(t.Context(), heavier)
		if len(got) != 1 || got[0].Name != "weight" || got[0].Share != "+10 %" || got[0].New != "3.777 N" || !got[0].Asked || got[0].ID != "q-weight" {
			t.Errorf("%s it was worked: %+v", when, got)
		}
		if a := work(t, r, "", heavier...); len(a.Changed) != 1 || a.Changed[0].Share != got[0].Share || a.Changed[0].New != "(3.777 ± 0.088) N" {
			t.Errorf("answered: %+v", a.Changed)
		}
	}
	for _, none := range []reading.Change{{Name: "mass", Text: "350 g ± 9 g"}, {Name: "mass", Text: "3 V"}, {Name: "mass", Text: ""}, {Name: "nothing", Text: "3 V"}} {
		if got := r.Glance(t.Context(), []reading.Change{none}); len(got) != 0 {
			t.Errorf("%+v: %+v", none, got)
		}
	}
	r.Save([]byte(strings.Replace(glider, "350 g", "385 g", 1)))
	if got := r.Glance(t.Context(), []reading.Change{{Name: "mass", Text: "350 g"}}); len(got) != 1 || got[0].Old != "3.777 N" {
		t.Errorf("saved: %+v", got)
	}
	r.Lose("is gone")
	if got := r.Glance(t.Context(), heavier); got != nil {
		t.Errorf("gone: %+v", got)
	}
	stopped, stop := context.WithCancel(t.Context())
	stop()
	if r = open(t, glider); r.Glance(stopped, heavier) != nil || len(r.Glance(t.Context(), heavier)) != 1 {
		t.Error("what was stopped is told, or stays")
	}
}

// TestTried says what comes out otherwise, limits newly broken apart.
func TestTried(t *testing.T) {
	r := open(t, glider)
	a := work(t, r, "", reading.Change{Name: "mass", Text: "0.5 kg ± 5 g"})
	// 0.350 kg · 9.81 m/s² = 3.4335 N, 0.500 kg · 9.81 m/s² = 4.905 N: 4.905/3.4335 is 1.43.
	if len(a.Changed) != 1 || a.Changed[0].Name != "weight" || !strings.HasPrefix(a.Changed[0].Old, "(3.43") || !strings.HasPrefix(a.Changed[0].New, "(4.90") || a.Changed[0].Share != "+43 %" {
		t.Errorf("changed: %+v", a.Changed)
	}
	if len(a.Broken) != 1 || a.Broken[0].Text != "weight <= 4 N" || a.Broken[0].ID != "l-limit" || a.Holds {
		t.Errorf("broken: %+v, holds %v", a.Broken, a.Holds)
	}
	html := a.Sections[slices.Index(ids(a), "b-mass")].HTML
	if !strings.Contains(html, `class="was">was (3.43`) || !strings.Contains(html, "broken") {
		t.Errorf("the section does not say what was: %s", html)
	}
}

// TestProblems leaves the page as it was where a change cannot stand.
func TestProblems(t *testing.T) {
	r := open(t, glider)
	first := work(t, r, "")
	for _, c := range []reading.Change{{Name: "mass", Text: "5 V"}, {Name: "mass", Text: ""}, {Name: "mass", Text: "5 +"}, {Name: "weight", Text: "4 N"}, {Name: "nothing", Text: "4"}, {Name: "mass", Text: "1 g # note"}} {
		a := work(t, r, first.Stamp, c)
		if len(a.Problems) != 1 || a.Problems[0].Name != c.Name || a.Problems[0].Summary == "" || len(a.Sections) > 0 {
			t.Errorf("%v: %+v, sections %q", c, a.Problems, ids(a))
		}
	}
}

// TestWordsOfFields says what mends a value as it stands in a field.
func TestWordsOfFields(t *testing.T) {
	r := open(t, glider)
	for text, want := range map[string]string{"": "Type a value such as `350 g ± 5 g`", " ": "or put it back", "350": "write `350 g`", "350g": "Write `350 g`"} {
		a := work(t, r, "", reading.Change{Name: "mass", Text: text})
		if len(a.Problems) != 1 || !strings.Contains(a.Problems[0].Hint, want) || strings.Contains(a.Problems[0].Hint, "mass=") {
			t.Errorf("%q: %+v, want %s", text, a.Problems, want)
		}
	}
}

// TestInputs takes values apart into the number and what stands around it.
func TestInputs(t *testing.T) {
	text := "```working\n" + strings.Join([]string{
		"a = 350 g ± 5 g", "b = 5", "c = -2.50 V", "d = 1_000.5 mm", "e = 4.7e-6 F", "f = 80 %", "g = true", "h = \"free\"", "i = within 45 F to 65 F", "j = (12.50 ± 0.25) V", "k = 0 V", "l = [1 V, 2 V]", "m = a * b", "n = 0.5"}, "\n") + "\n```\n"
	got := map[string]reading.Input{}
	for _, in := range work(t, open(t, text), "").Inputs {
		got[in.Name] = in
	}
	for _, want := range []struct {
		name, before, number, after string
		places                      int
		low, high                   float64
	}{
		{"a", "", "350", " g ± 5 g", 0, 175, 525}, {"b", "", "5", "", 0, 2, 8}, {"c", "", "-2.50", " V", 2, -3.75, -1.25},
		{"d", "", "1_000.5", " mm", 1, 500.3, 1500.8}, {"e", "", "4.7", "e-6 F", 1, 2.4, 7.1}, {"f", "", "80", " %", 0, 40, 100},
		{"g", "", "", "", 0, 0, 0}, {"h", "", "", "", 0, 0, 0}, {"i", "", "", "", 0, 0, 0}, {"j", "(", "12.50", " ± 0.25) V", 2, 6.25, 18.75}, {"k", "", "0", " V", 0, -10, 10},
		{"n", "", "0.5", "", 2, 0.25, 0.75},
	} {
		in := got[want.name]
		if in.Name == "" || in.Before != want.before || in.Number != want.number || in.After != want.after || in.Places != want.places || in.Low != want.low || in.High != want.high {
			t.Errorf("%s: %+v", want.name, in)
		}
		if in.Number != "" && in.Before+in.Number+in.After != in.Text {
			t.Errorf("%s: the parts of %q", want.name, in.Text)
		}
	}
	if _, ok := got["m"]; ok || len(got["g"].Choices) != 2 {
		t.Errorf("m: %v, g: %+v", got["m"], got["g"])
	}
}

// TestReach tries and keeps what stands inside of calls and in cells of tables, and
// offers what a word or a row can be.
func TestReach(t *testing.T) {
	text := "# Pack\n\n<!-- table: cells -->\n\n| cell | capacitance [F] | mass [g] |\n| :--- | ---: | ---: |\n| L50 | 50 | 13 |\n| L60 | 60 | 14 |\n\n```working\npick = cells[\"L50\"]\nC = pick.capacitance\nE [J] = 1/2 * C * (2.5 V)^2\n```\n"
	r := open(t, text)
	a := work(t, r, "")
	got := map[string]reading.Input{}
	for _, in := range a.Inputs {
		got[in.Name] = in
	}
	if in := got[`cells["L50"].capacitance`]; in.Number != "50" || in.Text != "50" {
		t.Errorf("a cell: %+v of %+v", in, a.Inputs)
	}
	if in := got["pick"]; !slices.Equal(in.Choices, []string{`cells["L50"]`, `cells["L60"]`}) || in.Text != in.Choices[0] {
		t.Errorf("a row: %+v", in)
	}
	for _, c := range []struct{ name, text, energy, old, new string }{
		{`cells["L50"].capacitance`, "51", "159.4 J", "| 50 |", "| 51 |"}, // ½ · 51 F · (2.5 V)² = 159.375 J
		{"pick", `cells["L60"]`, "187.5 J", `cells["L50"]`, `cells["L60"]`},
	} {
		tried := work(t, r, a.Stamp, reading.Change{Name: c.name, Text: c.text})
		if i := slices.IndexFunc(tried.Changed, func(v reading.Value) bool { return v.Name == "E" }); i < 0 || tried.Changed[i].New != c.energy {
			t.Errorf("%s: %+v %+v", c.name, tried.Changed, tried.Problems)
		}
		if all := fmt.Sprint(tried.Sections); !strings.Contains(all, `data-name="`+html.EscapeString(c.name)+`"`) {
			t.Errorf("%s is tried, and cannot be changed again: %s", c.name, all)
		}
		kept, problems, err := r.Keep(t.Context(), a.File, []reading.Change{{Name: c.name, Text: c.text}})
		if err != nil || len(problems) > 0 || string(kept.Text) != strings.Replace(text, c.old, c.new, 1) {
			t.Errorf("%s: %v %+v %+v", c.name, err, problems, kept)
		}
	}
}

// TestKeep changes the number and no other byte, and gives what takes it back.
func TestKeep(t *testing.T) {
	for _, text := range []string{glider, strings.ReplaceAll(glider, "\n", "\r\n"), "\ufeff" + glider, "> " + strings.ReplaceAll(glider, "\n", "\n> ")} {
		r := open(t, text)
		a := work(t, r, "")
		kept, problems, err := r.Keep(t.Context(), a.File, []reading.Change{{Name: "mass", Text: "360 g ± 5 g"}, {Name: "V_cell", Text: "2.70 V"}})
		if err != nil || len(problems) > 0 {
			t.Fatalf("%v, %+v", err, problems)
		}
		want := strings.NewReplacer("350 g", "360 g", "2.50 V", "2.70 V").Replace(text)
		if string(kept.Text) != want {
			t.Errorf("kept %q, want %q", kept.Text, want)
		}
		r.Save(kept.Text)
		back, _, err := r.Keep(t.Context(), work(t, r, "").File, kept.Back)
		if err != nil || string(back.Text) != text {
			t.Errorf("taken back: %v, %q", err, back)
		}
	}
}

// TestKeepRefuses keeps nothing in a text that was not shown, and nothing that would
// say something else there.
func TestKeepRefuses(t *testing.T) {
	r := open(t, glider)
	a := work(t, r, "")
	r.Save([]byte(strings.Replace(glider, "350", "355", 1)))
	if _, _, err := r.Keep(t.Context(), a.File, []reading.Change{{Name: "mass", Text: "360 g"}}); !errors.Is(err, reading.ErrOther) {
		t.Errorf("a text that was not shown: %v", err)
	}
	now := work(t, r, "")
	if _, _, err := r.Keep(t.Context(), now.File, []reading.Change{{Name: "mass", Text: "360 g", Was: "350 g"}}); !errors.Is(err, reading.ErrOther) {
		t.Errorf("a value that was not shown: %v", err)
	}
	for _, text := range []string{"5 V", "360 g # x", "360 g\nx = 5", "360 g\r\n```\n\n# Ha", "", "a*b", "360 g\n"} {
		kept, problems, err := r.Keep(t.Context(), now.File, []reading.Change{{Name: "mass", Text: text}})
		if err == nil && len(problems) == 0 {
			t.Errorf("%q is kept: %q", text, kept.Text)
		}
	}
	if _, problems, _ := r.Keep(t.Context(), now.File, []reading.Change{{Name: "weight", Text: "4 N"}}); len(problems) != 1 {
		t.Errorf("a worked value: %+v", problems)
	}
}

// TestFollow shows what is saved, broken pages with what they were last.
func TestFollow(t *testing.T) {
	r := open(t, glider)
	first := work(t, r, "")
	r.Save([]byte(strings.Replace(glider, "V_full = series", "V_full = serie", 1)))
	a := work(t, r, first.Stamp)
	if got := ids(a); !slices.Equal(got, []string{"top", "b-pack"}) || len(a.Problems) != 0 || a.Holds {
		t.Errorf("a line in error: %q %+v", got, a.Problems)
	}
	r.Save([]byte(glider + "\n<!-- worked -->\n"))
	if a = work(t, r, a.Stamp); len(a.Problems) == 0 || a.Order[0] != "page-problems" || len(a.Order) < 5 {
		t.Errorf("broken markers: %+v, %q", a.Problems, a.Order)
	}
	r.Lose("is gone")
	if a = work(t, r, a.Stamp); len(a.Problems) != 1 || len(a.Order) < 5 {
		t.Errorf("gone: %+v, %q", a.Problems, a.Order)
	}
	r.Save([]byte(glider))
	if a = work(t, r, a.Stamp); a.Stamp != first.Stamp || len(a.Problems) > 0 {
		t.Errorf("mended: %+v", a)
	}
	never := open(t, "<!-- worked -->\n")
	if a = work(t, never, ""); len(a.Problems) == 0 || len(a.Sections) != 1 {
		t.Errorf("never read: %+v", a)
	}
}

// TestUses knows what a page depends on, what it looked for in vain as well.
func TestUses(t *testing.T) {
	files := folder{"parts/list.md": "| part | mass [g] |\n| --- | --- |\n| a | 3 |\n"}
	r := reading.Open(files, "notes/a.md", []byte("![x](pic.png)\n\n```working\nuse \"../parts/list.md\"\nuse \"gone.csv\"\na = 1 g\n```\n"), reading.Options{})
	work(t, r, "")
	for _, name := range []string{"notes/a.md", "parts/list.md", "notes/gone.csv", "notes/pic.png"} {
		if !r.Uses(name) {
			t.Errorf("%s is not among %q", name, r.Files())
		}
	}
	if r.Uses("notes/b.md") {
		t.Error("it uses b.md")
	}
}

// TestStopped gives no answer that is half worked.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	r := open(t, glider)
	if a, err := r.Work(ctx, "", nil); err == nil {
		t.Errorf("answer %+v", a)
	}
	if a := work(t, r, ""); fmt.Sprint(a.Sections) != fmt.Sprint(work(t, open(t, glider), "").Sections) {
		t.Errorf("what was stopped is left half worked: %v", a.Sections)
	}
}

// TestManyTrials leaves known what was saved, however much was tried since.
func TestManyTrials(t *testing.T) {
	r := open(t, glider)
	first := work(t, r, "")
	last := first
	for i := range 100 {
		last = work(t, r, last.Stamp, reading.Change{Name: "mass", Text: fmt.Sprint(400+i, " g")})
	}
	if a := work(t, r, first.Stamp); len(a.Sections) != 0 {
		t.Errorf("who has what was saved is sent %q", ids(a))
	}
	if a := work(t, r, last.Stamp); slices.Equal(ids(a), a.Order) {
		t.Error("who has tried is sent all")
	}
}

// TestDocument has the script's data inside, which ends no element of the page.
func TestDocument(t *testing.T) {
	r := open(t, "# </script><script>alert(1)</script>\n\n```working\na = \"</script><!--<script>\"\n```\n")
	html, err := r.Document(t.Context(), page.Frame{Script: "open({})", Policy: "connect-src 'self'"})
	if err != nil {
		t.Fatal(err)
	}
	text := string(html)
	if got := strings.Count(text, "</script>"); got != 2 {
		t.Errorf("%d scripts end in it", got)
	}
	if !strings.Contains(text, `<link rel="icon" href="data:,">`) {
		t.Error("a browser asks for an icon, which the policy forbids")
	}
	_, data, _ := strings.Cut(text, `id="page-answer">`)
	data, _, _ = strings.Cut(data, "</script>")
	var a reading.Answer
	if err := json.Unmarshal([]byte(data), &a); err != nil || len(a.Inputs) != 1 || a.Inputs[0].Text != `"</script><!--<script>"` {
		t.Errorf("%v, %+v", err, a)
	}
}

// TestKeepInSamples keeps values of the samples as they stand: no byte changes.
func TestKeepInSamples(t *testing.T) {
	root := "../../samples"
	files := folder{}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(name)
		rel, _ := filepath.Rel(root, name)
		files[filepath.ToSlash(rel)] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	drafted := map[string]bool{}
	for _, name := range []string{"first/1-pack.md", "language/language.md", "lapwing/journal.md"} {
		r := reading.Open(files, name, []byte(files[name]), reading.Options{})
		a := work(t, r, "")
		var all []reading.Change
		for _, in := range a.Inputs {
			if in.File == "" && in.Text != "" && in.Text != "–" { // what is not known has no text
				all = append(all, reading.Change{Name: in.Name, Text: in.Text})
			}
		}
		kept, problems, err := r.Keep(t.Context(), a.File, all)
		if err != nil || len(problems) > 0 || string(kept.Text) != files[name] || len(all) == 0 {
			t.Errorf("%s: %d inputs, %v, %+v", name, len(all), err, problems)
		}
		for _, in := range a.Inputs {
			if in.File != "" && in.Text != "" && in.Text != "–" {
				all = append(all, reading.Change{Name: in.Name, Text: in.Text})
			}
		}
		drafts, back, problems, err := r.Drafts(t.Context(), a.File, all)
		if err != nil || len(problems) > 0 || len(back) != len(all) || len(drafts) == 0 || drafts[len(drafts)-1].File != name {
			t.Errorf("%s: %d drafts, %d of %d back, %v, %+v", name, len(drafts), len(back), len(all), err, problems)
		}
		for _, d := range drafts {
			if drafted[d.File] = true; string(d.New) != files[d.File] || string(d.Old) != files[d.File] {
				t.Errorf("%s: %s is another", name, d.File)
			}
		}
	}
	if !drafted["language/rundown.csv"] {
		t.Errorf("of data nothing is kept, of %v", drafted)
	}
}
