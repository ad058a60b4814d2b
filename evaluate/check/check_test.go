package check

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// parsed is the input of one working block.
func parsed(text string) Input {
	var b syntax.Block
	offset := 0
	for _, line := range strings.Split(text, "\n") {
		b.Lines = append(b.Lines, syntax.Line{Text: line, Offset: offset})
		offset += len(line) + 1
	}
	in := Input{Name: "notes.md"}
	in.Tree, in.Problems = syntax.Parse("notes.md", []syntax.Block{b})
	return in
}

func noFiles(string, string) (*Input, error) { return nil, errors.New("does not exist") }

func TestTypes(t *testing.T) {
	for _, c := range []struct{ text, name, want string }{
		{"a = 3 V", "a", "a voltage (V)"},
		{"a = 3 V * 2 A * 5 s", "a", "an energy (J)"},
		{"a = 3 rpm", "a", "a rotation (rad/s)"},
		{"a = 3 rpm * 2", "a", "a rotation (rad/s)"},
		{"a = 2 * pi * 50 Hz", "a", "a number per time (1/s)"},
		{"a = 20 °C - 5 °C", "a", "a temperature difference (K)"},
		{"a = [1 V, 2 V]", "a", "a list, each a voltage (V)"},
		{"a = 1 < 2", "a", "a truth (yes or no)"},
		{"a = \"x\"", "a", "a text"},
		{"f(x) = x^2\na = f(3 m)", "a", "an area (m²)"},
	} {
		p := Check(t.Context(), parsed(c.text), noFiles)
		d := p.Main.Names[c.name]
		if d == nil || d.Type == nil {
			t.Errorf("%s: no type: %v", c.text, p.Problems)
			continue
		}
		if got := d.Type.String(); got != c.want {
			t.Errorf("%s: %s, want %s", c.text, got, c.want)
		}
	}
}

// TestEveryError sees that all errors of a file come at once, and that what
// follows from one causes none.
func TestEveryError(t *testing.T) {
	p := Check(t.Context(), parsed("a = 3 V + 1 A\nb = a * 2\nc = sqr(b)\nd = nothing + c\ne = d"), noFiles)
	if len(p.Problems) != 3 {
		t.Errorf("%d problems: %v", len(p.Problems), p.Problems)
	}
	if e := p.Main.Names["e"]; e.Waits != "d" {
		t.Errorf("e waits for %q", e.Waits)
	}
}

// FuzzCheck checks anything: a definition is either checked or says why not,
// and every node of a checked one has its type and a place in the text.
func FuzzCheck(f *testing.F) {
	paths, err := filepath.Glob("../../testdata/conformance/*.txt")
	if err != nil || len(paths) == 0 {
		f.Fatal("no seeds", err)
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		for _, part := range strings.Split(string(text), "\n\n") {
			f.Add(part)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		p := Check(t.Context(), parsed(text), noFiles)
		for _, d := range p.Main.Defs {
			if !d.OK() {
				continue
			}
			if d.Type == nil {
				t.Fatalf("%s has no type and no reason", d.Name)
			}
			if n := d.Node(); n != nil {
				walk(t, n, len(text))
			}
		}
		if len(p.Problems) == 0 && len(p.Main.Defs) > 0 {
			for _, d := range p.Main.Defs {
				if !d.OK() {
					t.Fatalf("%s is not checked and nobody says why", d.Name)
				}
			}
		}
	})
}

func walk(t *testing.T, n program.Node, size int) {
	if n.Type() == nil {
		t.Fatalf("a %T without a type", n)
	}
	if at := n.Place(); at.Start < 0 || at.End > size || at.End < at.Start {
		t.Fatalf("a %T out of the text: %v", n, at)
	}
	for _, child := range program.Children(n) {
		walk(t, child, size)
	}
}
