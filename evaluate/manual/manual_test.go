package manual

import (
	"slices"
	"testing"

	"inkwing/evaluate/library"
	"inkwing/units"
)

// TestLookUp finds every kind of entry, and nothing under what is none.
func TestLookUp(t *testing.T) {
	for name, found := range map[string]func(*Entries) bool{
		"hold_up_time":  func(e *Entries) bool { return len(e.Functions) == 1 },
		"g_n":           func(e *Entries) bool { return len(e.Constants) == 1 },
		"mWh":           func(e *Entries) bool { return len(e.Units) == 1 && e.Units[0].Symbol == "mWh" },
		"volt":          func(e *Entries) bool { return len(e.Units) == 1 && e.Units[0].Symbol == "V" },
		"stored-energy": func(e *Entries) bool { return len(e.Cautions) == 1 },
		"limit":         func(e *Entries) bool { return len(e.Words) == 1 },
	} {
		if e := LookUp(name); !found(e) {
			t.Errorf("%s: found %+v", name, e)
		}
	}
	for _, name := range []string{"", "1", "Wh2x", "hold-up-time"} {
		if e := LookUp(name); !e.IsEmpty() {
			t.Errorf("%q finds %+v", name, e)
		}
	}
}

// TestAll lists each chapter alone; a topic that is also a function is none.
func TestAll(t *testing.T) {
	if e := All(Functions); len(e.Functions) < 50 || len(e.Constants) == 0 || len(e.Units) > 0 {
		t.Errorf("%d functions, %d constants", len(e.Functions), len(e.Constants))
	}
	if e := All("energy"); len(e.Functions) == 0 || e.Functions[0].Topic != "energy" {
		t.Error("no functions of energy")
	}
	for chapter, n := range map[string]int{Units: len(All(Units).Units), Cautions: len(All(Cautions).Cautions), Statements: len(All(Statements).Words)} {
		if n == 0 {
			t.Errorf("%s: none", chapter)
		}
	}
	for _, none := range []string{"generator", "glide", "none"} {
		if !All(none).IsEmpty() {
			t.Errorf("%s is a chapter", none)
		}
	}
}

func TestNearest(t *testing.T) {
	for name, want := range map[string]string{"hold_up_tim": "hold_up_time", "unit": "units", "stored-enrgy": "stored-energy", "qqqqq": ""} {
		if got := Nearest(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

// TestSearch finds what a builder calls things: by name or summary, by a unit's
// quantity, by a caution, and else by what is said of them.
func TestSearch(t *testing.T) {
	function := func(name string) func(*Entries) bool {
		return func(e *Entries) bool {
			return slices.ContainsFunc(e.Functions, func(f *library.Function) bool { return f.Name == name })
		}
	}
	for _, test := range []struct {
		text string
		has  func(*Entries) bool
	}{
		{"charge", function("hand_charge")}, {"charge", function("charge_time")}, {"Charge Time", function("charge_time")},
		{"charge", func(e *Entries) bool { return len(e.Units) > 0 && len(e.Cautions) > 0 }},
		{"density", function("air")}, {"wing", func(e *Entries) bool { return len(e.Functions) > 0 }},
		{"energy", func(e *Entries) bool {
			return slices.ContainsFunc(e.Units, func(u units.Named) bool { return u.Symbol == "Wh" })
		}},
		{"bound", func(e *Entries) bool { return len(e.Words) > 0 }},
		{"gravity", func(e *Entries) bool { return len(e.Constants) == 1 }},
	} {
		if e := Search(test.text); !test.has(e) {
			t.Errorf("%s finds %d functions, %d units, %d cautions, %d words", test.text, len(e.Functions), len(e.Units), len(e.Cautions), len(e.Words))
		}
	}
	for _, text := range []string{"", "_", "qqqq", "charge qqqq"} {
		if e := Search(text); !e.IsEmpty() {
			t.Errorf("%q finds something", text)
		}
	}
	if e := Search("wing"); slices.ContainsFunc(e.Functions, func(f *library.Function) bool { return f.Name == "winding" }) {
		t.Error("a word is found in the middle of another")
	}
}

// TestAbout wants a sentence of its own for each topic.
func TestAbout(t *testing.T) {
	seen := map[string]string{}
	for _, topic := range Topics() {
		says := About(topic)
		if other, twice := seen[says]; twice || says == "" {
			t.Errorf("About says %q of %s, as of %q", says, topic, other)
		}
		seen[says] = topic
	}
}
