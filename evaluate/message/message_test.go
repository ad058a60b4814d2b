package message

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"
)

func TestSpanTo(t *testing.T) {
	a, b := Span{"f", 3, 5}, Span{"f", 1, 4}
	if got := a.To(b); got != (Span{"f", 1, 5}) {
		t.Errorf("got %v", got)
	}
}

func TestSort(t *testing.T) {
	at := func(file string, start int) Diagnostic { return Diagnostic{Span: Span{file, start, start + 1}} }
	list := []Diagnostic{at("b", 1), at("a", 12), at("a", 3), at("a", 11)}
	got := Sort(list, func(x, y Span) bool { return x.File == y.File && x.Start/10 == y.Start/10 })
	if want := []Diagnostic{at("a", 3), at("a", 11), at("b", 1)}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestPosition(t *testing.T) {
	src := NewSource("a.md", []byte("ab\r\nΩmega\n\nx"))
	for _, c := range []struct{ offset, line, column int }{
		{-5, 1, 1}, {0, 1, 1}, {1, 1, 2}, {2, 1, 3}, {3, 1, 4}, // the line end belongs to its line
		{4, 2, 1}, {6, 2, 2}, {10, 2, 6}, {11, 3, 1}, {12, 4, 1}, {13, 4, 2}, {99, 4, 2},
	} {
		if line, column := src.Position(c.offset); line != c.line || column != c.column {
			t.Errorf("Position(%d) = %d:%d, want %d:%d", c.offset, line, column, c.line, c.column)
		}
	}
	for i, want := range []string{"", "ab", "Ωmega", "", "x", ""} {
		if got := src.Line(i); got != want {
			t.Errorf("Line(%d) = %q, want %q", i, got, want)
		}
	}
	for i, want := range []int{0, 0, 4, 11, 12, 13, 13} {
		if got := src.LineStart(i); got != want {
			t.Errorf("LineStart(%d) = %d, want %d", i, got, want)
		}
	}
}

func TestEmptySource(t *testing.T) {
	src := NewSource("a.md", nil)
	if line, column := src.Position(0); line != 1 || column != 1 {
		t.Errorf("got %d:%d", line, column)
	}
	if src.Line(1) != "" || src.LineStart(2) != 0 {
		t.Error("an empty file has one empty line")
	}
}

func TestSourceConcurrently(t *testing.T) {
	src := NewSource("a.md", []byte(strings.Repeat("x\n", 1000)))
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			if line, column := src.Position(500); line != 251 || column != 1 {
				t.Errorf("line %d, column %d", line, column)
			}
		})
	}
	wait.Wait()
}

func TestNearest(t *testing.T) {
	names := []string{"capacitance", "V_full", "v_full", "n_series", "t_fly", "x", "mass"}
	for _, c := range []struct{ name, want string }{
		{"capacitence", "capacitance"}, {"cpacitance", "capacitance"}, {"capacitnace", "capacitance"},
		{"CAPACITANCE", "capacitance"}, {"v_Full", "V_full"}, {"V_ful", "V_full"}, {"n_serie", "n_series"},
		{"t_fyl", "t_fly"}, {"masse", "mass"}, {"voltage", ""}, {"y", ""}, {"", ""}, {"X", "x"}, {"mass", ""},
		{"zz", ""}, {"sams", ""},
	} {
		if got := Nearest(c.name, names); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.name, got, c.want)
		}
	}
}

func TestVisible(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"plain", "plain"}, {"a\tb", "a b"}, {"\x1b[31m", `\x1b[31m`}, {"\x7f", `\x7f`}, {"\u0085", `\x85`},
		{"a\u202eb", `a\u202eb`}, {"\u2066\u2069\u200e\u200f", `\u2066\u2069\u200e\u200f`},
		{"\u2028\u2029\ufeff", `\u2028\u2029\ufeff`}, {"\xffΩ", `\xffΩ`}, {"Ω ± µ", "Ω ± µ"}, {"\x00\n", `\x00\x0a`},
		{"\ufffd", "\ufffd"},
		{"a\u200bb\u200c\u200d\u2060", `a\u200bb\u200c\u200d\u2060`}, {"\u061c", `\u061c`}, {"\u00ad\u034f\u180e", `\xad\u034f\u180e`},
		{"\U000e0041\U000e007f\U000e0fff", `\U000e0041\U000e007f\U000e0fff`}, {"\u115f\u3164\uffa0\ufff9", `\u115f\u3164\uffa0\ufff9`},
		{"✈\ufe0f a\ufe0f", "✈\ufe0f a\\ufe0f"}, {"\U000e0100", `\U000e0100`}, {"e\u0301 \u0601", "e\u0301 \u0601"},
	} {
		if got := Visible(c.text); got != c.want {
			t.Errorf("Visible(%q) = %q, want %q", c.text, got, c.want)
		}
	}
}

func TestRender(t *testing.T) {
	text := "C = 5 F\n\tΩ = 漢 + x\nE = a \x1b b\ny = e\u0301 + z\n"
	src := NewSource("a.md", []byte(text))
	at := func(part string) Span {
		i := strings.Index(text, part)
		return Span{"a.md", i, i + len(part)}
	}
	for _, c := range []struct {
		name string
		d    Diagnostic
		want string
	}{
		{"note and mend", Diagnostic{at("5 F"), "wrong", "right it", []Note{{at("C"), "first defined here"}}},
			"a.md:1:5: wrong\n    1 | C = 5 F\n      |     ^^^\n  hint: right it\n  a.md:1:1: first defined here\n"},
		{"tab and wide", Diagnostic{Span: at("x"), Summary: "s"},
			"a.md:2:10: s\n    2 |  Ω = 漢 + x\n      |           ^\n"},
		{"wide marked", Diagnostic{Span: at("漢"), Summary: "s"},
			"a.md:2:6: s\n    2 |  Ω = 漢 + x\n      |      ^^\n"},
		{"control", Diagnostic{Span: at("b\ny"), Summary: "s"},
			"a.md:3:9: s\n    3 | E = a \\x1b b\n      |            ^\n"},
		{"combining", Diagnostic{Span: at("z"), Summary: "s"},
			"a.md:4:10: s\n    4 | y = e\u0301 + z\n      |         ^\n"},
		{"nothing marked", Diagnostic{Span: Span{"a.md", 7, 7}, Summary: "s"},
			"a.md:1:8: s\n    1 | C = 5 F\n      |        ^\n"},
		{"another file", Diagnostic{Span{"b.md", 1, 2}, "s", "h", []Note{{at("C"), "n"}}},
			"b.md: s\n  hint: h\n  a.md:1:1: n\n"},
	} {
		if got := Render(c.d, src); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
	if got := Render(Diagnostic{Span: Span{"a.md", 1, 2}, Summary: "s"}, nil); got != "a.md: s\n" {
		t.Errorf("without source: %q", got)
	}
}

// A style stands before what is wrong, and colours itself and the marks alone, even
// where the message itself has their look.
func TestStyle(t *testing.T) {
	src := NewSource("a.md", []byte("^ | error: x"))
	style := Style{Level: "error:", Paint: func(text string) string { return "<" + text + ">" }}
	got := style.Render(Diagnostic{Span{"a.md", 4, 9}, "no error: ^^", "a | ^", nil}, src)
	if want := "a.md:1:5: <error:> no error: ^^\n    1 | ^ | error: x\n      |     <^^^^^>\n  hint: a | ^\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestStyleWidth sets a message at every width that a terminal may have.
func TestStyleWidth(t *testing.T) {
	line := "E_full [J] = 1/2 * store.capacitance * V_full + 3 V * 12 C * what_else_there_may_be # a note"
	src := NewSource("lapwing/journal.md", []byte(line))
	d := Diagnostic{Span{"lapwing/journal.md", 13, 46}, "a charge (C) where an energy (J) is wanted", "is a square forgotten? the energy of a capacitor is half its capacitance times the square of its voltage", nil}
	for width := 40; width <= 130; width++ {
		got := Style{Level: "error:", Width: width}.Render(d, src)
		for _, line := range strings.Split(got, "\n") {
			if Columns(line) > width {
				t.Errorf("%d columns of %d: %q", Columns(line), width, line)
			}
		}
	}
	want := "lapwing/journal.md:1:14: error: a charge\n  (C) where an energy (J) is wanted\n    1 | …l [J] = 1/2 * store.capacitanc…\n"
	if got := (Style{Level: "error:", Width: 40}).Render(d, src); !strings.HasPrefix(got, want) {
		t.Errorf("got\n%s", got)
	}
}

// A long line is cut, and the marks still stand under the place.
func TestRenderLongLine(t *testing.T) {
	text := strings.Repeat("a", 500) + "WRONG" + strings.Repeat("b", 500)
	got := Render(Diagnostic{Span: Span{"a.md", 500, 505}, Summary: "s"}, NewSource("a.md", []byte(text)))
	lines := strings.Split(got, "\n")
	if n := utf8.RuneCountInString(lines[1]); n > MaxExcerpt+9 {
		t.Errorf("%d columns", n)
	}
	shown, marks := []rune(lines[1]), []rune(lines[2])
	if i := strings.IndexRune(lines[2], '^'); string(shown[i:len(marks)]) != "WRONG" {
		t.Errorf("marks stand wrong:\n%s", got)
	}
}

// Rendering never panics, and never lets a control through to a terminal.
func FuzzRender(f *testing.F) {
	f.Add("C = 5 F\r\n\tx", 2, 9)
	f.Add("\u202e\xff\n", 0, 1)
	f.Fuzz(func(t *testing.T, text string, start, end int) {
		out := Render(Diagnostic{Span: Span{"a.md", start, end}, Summary: text, Hint: text}, NewSource("a.md", []byte(text)))
		for _, r := range out {
			if isHidden(r) && !isSelector(r) && r != '\n' {
				t.Fatalf("%q holds %U", out, r)
			}
		}
	})
}

func BenchmarkPosition(b *testing.B) {
	text := []byte(strings.Repeat("V_full [V] = 10 V ± 0.1 V\n", 10_000))
	src := NewSource("a.md", text)
	b.ReportAllocs()
	for b.Loop() {
		src.Position(len(text) / 2)
	}
}

// FuzzNearest holds that the glance by which most candidates are passed over passes
// over none that is near.
func FuzzNearest(f *testing.F) {
	for _, pair := range []string{"capacitance capacitence", "V_full v_ful", "Ωmega ωmeg", "ab ba", "ſeries series", "K k"} {
		f.Add(pair)
	}
	f.Fuzz(func(t *testing.T, pair string) {
		name, c, _ := strings.Cut(pair, " ")
		if !utf8.ValidString(pair) || name == c || len(pair) > 100 {
			return
		}
		near := strings.EqualFold(c, name) || new(distance).between(strings.ToLower(name), strings.ToLower(c), slips(name)+1) <= slips(name)
		if got := Nearest(name, []string{c}); (got != "") != near && c != "" {
			t.Errorf("Nearest(%q, %q) = %q", name, c, got)
		}
	})
}

func BenchmarkNearest(b *testing.B) {
	names := make([]string, 10_000)
	for i := range names {
		names[i] = fmt.Sprintf("voltage_%d", i)
	}
	b.ReportAllocs()
	for b.Loop() {
		Nearest("voltgae_1234x", names)
	}
}

// TestPositionInAnyOrder: a place is the same whichever was asked for before, in the
// middle of a character too.
func TestPositionInAnyOrder(t *testing.T) {
	text := []byte("aä€x\nzweite Zeile\r\n\nΩ ende")
	all := func(src *Source, offset int) string { return fmt.Sprint(src.Position(offset)) }
	random := rand.New(rand.NewPCG(5, 6))
	used := NewSource("a.md", text)
	for range 2000 {
		offset := random.IntN(len(text)+3) - 1
		if got, want := all(used, offset), all(NewSource("a.md", text), offset); got != want {
			t.Fatalf("offset %d stands at %s, and at %s when asked first", offset, got, want)
		}
	}
}

// TestLongLine: the excerpt of a long line is that of its neighbourhood, whatever lies
// further off.
func TestLongLine(t *testing.T) {
	near := strings.Repeat("ä€", 400)
	for _, far := range []int{0, 1, 10_000} {
		line := strings.Repeat("Ω", far) + near + "HERE" + near + strings.Repeat("→", far)
		at := strings.Index(line, "HERE")
		got := Render(Diagnostic{Span: Span{"a.md", at, at + 4}, Summary: "wrong"}, NewSource("a.md", []byte(line)))
		_, excerpt, _ := strings.Cut(got, "|")
		line = near + "HERE" + near
		at = strings.Index(line, "HERE")
		_, want, _ := strings.Cut(Render(Diagnostic{Span: Span{"a.md", at, at + 4}, Summary: "wrong"}, NewSource("a.md", []byte(line))), "|")
		if excerpt != want {
			t.Errorf("with %d more on both sides\n%s\nwant\n%s", far, excerpt, want)
		}
	}
}
