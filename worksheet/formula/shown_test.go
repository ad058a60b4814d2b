package formula

import (
	"cmp"
	"html"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"inkwing/units"
)

// made are texts of pieces in any order: numbers, and what is nearly one.
func made(count int, pieces ...string) []string {
	random := rand.New(rand.NewPCG(1, 2))
	texts := make([]string, count)
	for i := range texts {
		for range random.IntN(9) {
			texts[i] += pieces[random.IntN(len(pieces))]
		}
	}
	return texts
}

// numberByRule takes a number apart by one rule for how it is written, of which no part ends
// early for the next to begin: 5.(x is none of 5 with the unit .(x.
func numberByRule(text string) (shownNumber, bool) {
	m := numberRule.FindStringSubmatch(text)
	if m == nil || m[6] == "" && endsEarly(m) {
		return shownNumber{}, false
	}
	return shownNumber{m[1], m[2], m[3], m[4], m[5], m[6], m[7]}, true
}

func endsEarly(m []string) bool {
	last := cmp.Or(m[3], m[2])
	return m[4]+m[5] == "" && !strings.Contains(last, "e") && strings.HasPrefix(m[7], ".") || m[5] == "" && powerSize(m[7]) > 0
}

const digitsRule = `[-−+]?[0-9][0-9.]*(?:e[-+]?[0-9]+)?`

var numberRule = regexp.MustCompile(`^(\()?(` + digitsRule + `)(?: ± (` + digitsRule + `))?(\))?(e[-+]?[0-9]+)?(?:( )?([^0-9 ()±][^ ]*))?$`)

// TestNumberOf takes numbers apart, and what is nearly one, as the rule has it.
func TestNumberOf(t *testing.T) {
	found := 0
	for _, text := range made(300_000, "1", "20", ".", "e", "e-3", "e+", " ", " ± ", "±", "(", ")", "-", "−", "+", "V", "kg/m³", "°", "\xff", "<") {
		got, ok := numberOf(text)
		want, is := numberByRule(text)
		if got != want || ok != is {
			t.Fatalf("%q: %q %v, want %q %v", text, got, ok, want, is)
		}
		if ok {
			found++
		}
	}
	if found < 10_000 {
		t.Errorf("only %d were numbers", found)
	}
}

// TestTextByRule sets the same texts as a row of replacements does.
func TestTextByRule(t *testing.T) {
	tenTo := regexp.MustCompile(`e([-+]?[0-9]+)`)
	for _, text := range made(100_000, "1", "20", ".5", "e", "e-3", "e+4", " ", " ± ", "(", ")", "-", "+", "V", "m&s", "se2", "<") {
		want := html.EscapeString(text)
		if _, ok := numberByRule(text); ok {
			want = strings.ReplaceAll(tenTo.ReplaceAllString(want, "\u202f×\u202f10<sup>$1</sup>"), "<sup>+", "<sup>")
			want = strings.NewReplacer("-", "−", " ", "\u00a0").Replace(want)
		} else {
			want = string(appendMinus(nil, want))
		}
		if got := Text(text); got != want {
			t.Fatalf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestJoinedByRule joins what one rule finds.
func TestJoinedByRule(t *testing.T) {
	rule := regexp.MustCompile(`[0-9] [\pL°%][^\s,;:.()&<]*`)
	for _, text := range made(100_000, "1", "20", " ", " ", "V", "kg", "m/s", "m2", "°C", "°", "%", "cells", ",", ".", "(", "<", "&", "\n", "\xff") {
		want := rule.ReplaceAllStringFunc(text, func(match string) string {
			number, word, _ := strings.Cut(match, " ")
			if _, err := units.Parse(word); err != nil {
				return match
			}
			return number + "\u00a0" + word
		})
		if got := Joined(text); got != want {
			t.Fatalf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestPartsOf takes names apart as the rule for those with keys does.
func TestPartsOf(t *testing.T) {
	for _, text := range made(100_000, "a", "V_1", "η", "2", "²", ".", ".", "_", `["B 5"]`, `["`, " ", "-", "\xff") {
		owner, name, ok := partsOf(text)
		if a, b, is := keyedParts(text); ok != is || ok && (owner != a || name != b) {
			t.Fatalf("%q: %q %q %v, want %q %q %v", text, owner, name, ok, a, b, is)
		}
	}
}
