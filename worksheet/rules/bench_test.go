package rules

import (
	"testing"

	"inkwing/units"
)

const benched = `every quantity where name endsWith ".control_margin" and unit == "s": value >= 40 s and uncertainty / value < 5 %`

// A rule is read once a run.
func BenchmarkReadRule(b *testing.B) {
	line := lineOf(benched)
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := ReadPage("club.md", line); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

// A row is asked once a rule: here where all of the rule has to be asked.
func BenchmarkAskRow(b *testing.B) {
	rules, _ := ReadPage("club.md", lineOf(benched))
	r := &quantityRow{common: common{kind: kindOf("s")}, Name: "down.control_margin", Unit: "s", Value: 50, Uncertainty: 1}
	m := newMachine()
	b.ReportAllocs()
	for b.Loop() {
		if m.ask(rules[0].where, r) != yes || m.ask(rules[0].demand, r) != yes {
			b.Fatal("not asked")
		}
	}
}

// Most rows are not meant.
func BenchmarkPassRow(b *testing.B) {
	rules, _ := ReadPage("club.md", lineOf(benched))
	r := &quantityRow{common: common{kind: kindOf("V")}, Name: "V_full", Unit: "V", Value: 50}
	m := newMachine()
	b.ReportAllocs()
	for b.Loop() {
		if m.ask(rules[0].where, r) != no {
			b.Fatal("asked")
		}
	}
}

func kindOf(unit string) *units.Kind {
	k := units.MustParse(unit).Kind
	return &k
}
