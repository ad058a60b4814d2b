package rules

import (
	"math"
	"slices"
	"testing"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/units"
)

// telling is a report in which each field of each row has something to say.
func telling() *report.Report {
	volt := units.MustParse("V").Kind
	unsure := report.Uncertainty{U: 0.05, Expanded: 0.1}
	return &report.Report{Sheet: "a.md",
		Quantities: []report.Quantity{
			{Name: "V", Path: "a.md", Span: on(1), Value: 12.5, Kind: volt, Given: true, Note: "on the meter", Uncertainty: unsure},
			{Name: "ready", Path: "a.md", Span: on(2), Value: true, Given: true},
			{Name: "form", Path: "a.md", Span: on(3), Value: "round", Given: true},
			{Name: "I", Path: "a.md", Span: on(4), State: report.Failed, Given: true},
		},
		Limits: []report.Limit{
			{Span: on(1), Text: "V <= 13 V", Holds: true, Straddle: true, Advice: "add a cell", Margin: &report.Margin{SIUnit: "V", Value: 12.5, High: new(13.0), Headroom: 0.5, Ratio: new(0.5 / 13)}},
			{Span: on(2), State: report.Failed},
		},
		Cautions: []report.Caution{{Span: on(1), ID: "spinning-rotor", Kind: report.OfStanding, Level: model.Danger, Text: "it spins", Source: "common practice"}},
		Errors:   []message.Diagnostic{{Span: on(1), Summary: "no such thing", Hint: "name another"}},
		Blocks: []report.Block{{
			Tables: []report.Table{{Verb: "vary", Name: "study", Span: on(1), State: report.Failed, Columns: []report.Column{{Head: "n"}}, Rows: [][]string{{"1"}}}},
			Charts: []report.Chart{{Title: "A charge", Span: on(1), Alt: "V against t", State: report.Failed}},
		}},
	}
}

// TestEveryFieldIsFilled wants each field to say something in a row of telling: one
// that journal.go does not fill in would answer 0, or no, whatever is asked.
func TestEveryFieldIsFilled(t *testing.T) {
	j := NewJournal("a.md", telling(), []byte(journalText))
	for _, s := range Subjects() {
		for _, f := range s.Fields {
			if !slices.ContainsFunc(j.of(s), func(r row) bool { return says(f.of(r)) }) {
				t.Errorf("%s of %s says nothing: fill it in in journal.go, and have telling say it", f.Name, s.article())
			}
		}
	}
}

// says reports whether a value is more than what nobody filled in.
func says(value any) bool {
	switch x := value.(type) {
	case float64:
		return x != 0 && !math.IsNaN(x)
	case bool:
		return x
	case string:
		return x != ""
	case []string:
		return len(x) > 0
	}
	return false
}
