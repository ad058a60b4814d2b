package present_test

import (
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// rowsOf are the rows of the first block, each with what it shows.
func rowsOf(t *testing.T, text string, inline ...string) string {
	t.Helper()
	page := kit.Block("notes.md", text)
	for _, name := range inline {
		page.Inline = append(page.Inline, sheet.Inline{Name: name, Unit: syntax.Unit{Text: "V"}})
	}
	var rows []string
	for _, q := range kit.Clean(t, evaluate.Work(t.Context(), page, nil), text).Blocks[0].Rows {
		rows = append(rows, q.Name+" "+q.Shown)
	}
	return strings.Join(rows, "; ")
}

// TestRows wants no row for what was given, for what stands elsewhere on the page, or
// for a record that only bundles its inputs.
func TestRows(t *testing.T) {
	const cell = "cell = capacitor(50 F, 2.7 V, resistance: 16 mΩ, tolerance: 0 %)\n"
	const turn = "c = coil(100, awg(24), 4 mm, 6 mm, 8 mm)\n"
	for _, c := range []struct{ name, text, want string }{
		{"what was given", "U = 3 V\nP = part(30 g, 10 mm)", ""},
		{"only its inputs and what they come to", cell, ""},
		{"echoes", turn, "c.resistance 0.2646 Ω; c.copper_mass 5.718 g; c.turns_that_fit 117"},
		{"an echo by a name", "s = pack(capacitor(50 F, 2.7 V, tolerance: 0 %), series: 1)", "s.energy 182.2 J; s.safe_voltage 2.7 V"},
		{"a limit", "U = 3 V\nW = 2 * U\nX = 3 * U\nlimit W <= 8 V", "X 9 V"},
		{"what a limit allows", "U = 3 V\nW = 2 * U\nlimit U <= W", ""},
		{"a sum in a limit", "U = 3 V\nW = 2 * U\nlimit W + 1 V <= 8 V", "W 6 V"},
		{"a measurement", "U = 3 V\nW = 2 * U\nmeasured W = 5.9 V", ""},
		{"a field under a name of one's own", turn + "m = c.copper_mass", "c.resistance 0.2646 Ω; c.turns_that_fit 117; m 5.718 g"},
		{"what a study found", "x = 2\ny = x^2\nn = adjust x in -3 to 3 until y == 4\nlimit n <= 5", "y 4; n 2"},
		{"a short list", "xs = 2 * [1 V, 2 V]", "xs 2 V, 4 V"},
		{"a long list", "xs = 2 * [1 V, 2 V, 3 V, 4 V, 0.5 V]", "xs 5 values: 1 V to 8 V"},
		{"a list of words", "w = [\"a\", \"b\"]\nk = w[1]", "k a"},
	} {
		if got := rowsOf(t, c.text); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
	if got := rowsOf(t, "U = 3 V\nW = 2 * U\nX = 3 * U", "X"); got != "W 6 V" {
		t.Errorf("in the prose: got %q", got)
	}
	if got := rowsOf(t, "s = pack(capacitor(50 F, 2.7 V), series: 4)\nW = s.safe_voltage / 2", "s.rated_voltage"); !strings.HasPrefix(got, "W ") {
		t.Errorf("a field in the prose: got %q", got)
	}
}

// TestCautionOnce wants findings of one kind joined where they first arise, with
// the gravest numbers, and a closing line in the last block that has any.
func TestCautionOnce(t *testing.T) {
	page := kit.Block("notes.md", "wire = awg(32)\na = lead(wire, 0.1 m, 1 A)\nb = lead(wire, 0.1 m, 3 A)\nc = lead(wire, 0.1 m, 2 A)")
	lines := page.Blocks[0].Lines
	page.Blocks = []syntax.Block{{Lines: lines[:3]}, {Lines: lines[3:]}}
	r := kit.Clean(t, evaluate.Work(t.Context(), page, nil), "leads")
	var first report.Caution
	for _, c := range r.Blocks[0].Cautions {
		if c.ID == "lead-dense" {
			first = c
		}
	}
	if got := strings.Join(first.Names, " "); got != "b a c" {
		t.Errorf("names %q of %q", got, first.Summary)
	}
	if len(r.Blocks[1].Cautions) != 0 || r.Blocks[0].Closing == "" || r.Blocks[1].Closing != "" {
		t.Errorf("second block %v, closings %q %q", r.Blocks[1].Cautions, r.Blocks[0].Closing, r.Blocks[1].Closing)
	}
	n := 0
	for _, c := range r.Cautions {
		if c.ID == "lead-dense" {
			n++
		}
	}
	if n != 3 {
		t.Errorf("%d in the report, want all three", n)
	}
}

// TestGravest wants the gravest of joined findings told, also where their two numbers
// alone do not say which that is.
func TestGravest(t *testing.T) {
	const pack = "pack4 = pack(capacitor(50 F, 2.7 V, resistance: 16 mΩ, tolerance: 5 %), series: 4)\n"
	for id, c := range map[string]struct{ text, want string }{
		"turns-do-not-fit":    {"a = coil(500, awg(22), 10 mm, 9 mm, 8 mm)\nb = coil(900, awg(22), 10 mm, 9 mm, 8 mm)", "b a"},
		"unusual-tail-volume": {"a = tail_volume(1 dm^2, 400 mm, 20 dm^2, chord: 200 mm)\nb = tail_volume(30 dm^2, 900 mm, 20 dm^2, chord: 200 mm)", "b a"},
		"unbalanced-string":   {pack + "a = worst_cell_voltage(pack4, 9 V)\nb = worst_cell_voltage(pack4, 10.2 V)", "b"},
		"stored-energy":       {pack + "b = worst_cell_voltage(pack4, 9 V)", "pack4"},
		"lead-near-melting":   {"w = awg(36)\na = lead(w, 0.1 m, 2 A)\nb = lead(w, 0.1 m, 2.4 A)", "b a"},
	} {
		var got []string
		for _, x := range kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", c.text), nil), c.text).Blocks[0].Cautions {
			if x.ID == id {
				got = x.Names
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %s", id, got, c.want)
		}
	}
}
