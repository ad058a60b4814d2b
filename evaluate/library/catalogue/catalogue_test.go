package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestFresh proves that the committed catalogues are what the declarations say.
func TestFresh(t *testing.T) {
	for _, target := range targets {
		want, problems, err := generate("..", target)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range problems {
			t.Errorf("cannot be read: %s", p)
		}
		for name, text := range want {
			got, err := os.ReadFile(filepath.Join("..", name))
			if err != nil || !bytes.Equal(got, text) {
				t.Errorf("%s is not what the declarations say: run go generate ./evaluate/library", name)
			}
		}
	}
}

// TestEveryFolderIsRead wants each folder of the physics among those that the
// catalogue reads; the others hold no function of the language.
func TestEveryFolderIsRead(t *testing.T) {
	entries, err := os.ReadDir("..")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		other := slices.Contains([]string{"catalogue", "internal", "model"}, e.Name())
		if e.IsDir() && !other && !slices.Contains(all, e.Name()) {
			t.Errorf("%s is not in all of main.go: the language does not know what is in it", e.Name())
		}
	}
}

// TestProblems proves that what cannot be read is named and left out.
func TestProblems(t *testing.T) {
	_, problems, err := read("testdata", []string{"bad"})
	if err != nil {
		t.Fatal(err)
	}
	functions, _, _ := read("testdata", []string{"bad"})
	kept, more := newWriter().writable(functions)
	said := strings.Join(append(problems, more...), "\n")
	for _, want := range []string{
		"bad.NoError is not of the shape func NoError(in NoErrorInput) (NoErrorResult, error): it is (in NoErrorInput) NoErrorResult",
		"bad.Complex: the language has no value for the Go type complex128",
		"bad.Hidden: the field secret of HiddenInput is unexported",
		"bad.Hidden: the type row is unexported, so the catalogue cannot name it",
		"bad.Unknown: the language has no value for the Go type invalid type",
		"bad.Pointed: it embeds *",
		"bad.Mute: MuteResult has no exported field",
		"bad.Double: DoubleResult holds cautions in several of its parts",
		"twice is also the name of bad.",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("no problem says %q in\n%s", want, said)
		}
	}
	if len(kept) != 1 || kept[0].name != "twice" {
		t.Errorf("kept %v, want only twice", kept)
	}
}

func TestTakeApart(t *testing.T) {
	const comment = `HoldUpTime says how long a store carries
a load, e.g. a radio. More of it
stands here.

And here.

Formula: t = C·V/I
over both lines

	t = a
	  + b

Validity:

  - V above zero
  - I above zero

Sources: a book: its page 3

Example:

	t [s] = hold_up_time(
	    store)
	u = t

`
	got := takeApart(comment, "HoldUpTime", "hold_up_time")
	want := doc{
		summary:  "hold_up_time says how long a store carries a load, e.g. a radio.",
		text:     "More of it stands here.\n\nAnd here.",
		formula:  "t = C·V/I over both lines\n\nt = a\n+ b",
		validity: "- V above zero\n- I above zero",
		source:   "a book: its page 3",
		example:  "t [s] = hold_up_time(\n    store)\nu = t",
	}
	if got != want {
		t.Errorf("got  %#v\nwant %#v", got, want)
	}
	if got := (doc{source: "own"}).or(doc{source: "common", formula: "f"}); got != (doc{source: "own", formula: "f"}) {
		t.Errorf("or: %#v", got)
	}
}

// FuzzTakeApart: nothing but the labels is lost of a comment.
func FuzzTakeApart(f *testing.F) {
	f.Add("F does. More.\n\nFormula: a\n\tb\nSource:\n\n\tx\n")
	f.Add("Example:\n\n\ta = 1\n\n\tb = 2\n")
	f.Fuzz(func(t *testing.T, comment string) {
		d := takeApart(comment, "", "")
		want := 0
		for line := range strings.Lines(comment) {
			line = strings.TrimRight(line, " \t\r\n")
			if label, rest := labelled(line); label != "" {
				line = rest
			}
			want += solid(line)
		}
		if got := solid(d.summary + d.text + d.formula + d.validity + d.source + d.example); got != want {
			t.Errorf("%d of %d characters are left in %#v", got, want, d)
		}
	})
}

// solid counts the bytes that are no space.
func solid(text string) int { return len(strings.Join(strings.Fields(text), "")) }
