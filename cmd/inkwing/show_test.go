package main

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/units"
	"inkwing/worksheet"
)

// sample is an outcome with one of everything, in a file whose second line has
// a two-byte letter before the place of the error.
func sample() outcome {
	eight, tooLarge := 8.0, math.Inf(1)
	text := "V = 10 V\r\nµ = 12 V/R\r\nlimit V <= 8 V\r\n"
	at := func(part string) message.Span {
		i := strings.Index(text, part)
		return message.Span{File: "sub/notes.md", Start: i, End: i + len(part)}
	}
	return outcome{
		target: &target{shown: "here/notes.md", base: "/root", name: "sub/notes.md"},
		result: &worksheet.Result{
			Path: "sub/notes.md", Source: []byte(text), Output: []byte(text + "x"), Blocks: 1,
			Report: &report.Report{
				Quantities: []report.Quantity{
					{Name: "V", Path: "sub/notes.md", Span: at("V = 10 V"), Value: 10.0, Kind: units.MustParse("V").Kind, Shown: "10 V", Given: true, Note: "read"},
					{Name: "store.ok", Path: "sub/notes.md", Span: at("V = 10 V"), Value: true, Shown: "yes"},
					{Name: "store.kind", Path: "sub/notes.md", Span: at("V = 10 V"), Value: "disc", Shown: "disc"},
					{Name: "µ", Path: "sub/notes.md", Span: at("µ"), State: report.Failed, Shown: "—"},
				},
				Blocks: []report.Block{{Cautions: []report.Caution{{Kind: report.OfModel}}, Tables: []report.Table{
					{Verb: "vary", Name: "s", Span: at("µ"), Columns: []report.Column{{Head: "`V [mV]`", SIUnit: "V", Number: true}, {Head: "Note"}},
						Rows: [][]string{{"12", ""}, {"—", "not worked"}}, Values: [][]any{{0.012, ""}, {nil, "not worked"}}, Notes: []string{"It is so."}},
					{Verb: "tune", Span: at("µ"), State: report.Waiting, Waits: "V"},
				}}},
				Limits: []report.Limit{
					{Span: at("limit V <= 8 V"), Text: "V <= 8 V", Value: "10 V", Allowed: "8 V", Headroom: "-25 %", Advice: "Charge less.",
						Margin: &report.Margin{SIUnit: "V", Value: 10, High: &eight, Headroom: -2, Ratio: &tooLarge}},
					{Span: at("limit V <= 8 V"), Text: "µ <= 8 A", State: report.Waiting, Value: "—", Allowed: "8 A"},
				},
				Cautions: []report.Caution{
					{ID: "stored-energy", Kind: report.OfStanding, Level: model.Danger, Span: at("V"), Text: "It holds 3 J.", Source: "common practice"},
					{ID: "limit", Kind: report.OfLimit, Level: model.Warning, Span: at("limit V <= 8 V"), Text: "Too much."},
				},
				Errors: []message.Diagnostic{{Span: at("R"), Summary: "R is no unit\x1b[2J", Hint: "put spaces around /",
					Notes: []message.Note{{Span: at("V = 10 V"), Text: "V is defined here"}}}},
			},
		},
	}
}

func TestShowFindings(t *testing.T) {
	var out strings.Builder
	tl := newTool(strings.NewReader(""), &out, &out)
	tl.out.colour, tl.err.colour = false, false
	tl.showSummary(tl.out, sample(), "changed")
	tl.showFindings(tl.err, sample())
	want := `here/notes.md: 3 quantities, 2 limits (1 not kept), 1 caution, 1 error, changed
here/notes.md:3:1: limit: does not hold: worked 10 V, allowed 8 V, headroom -25 %
    3 | limit V <= 8 V
      | ^^^^^^^^^^^^^^
  hint: Charge less.
here/notes.md:2:10: error: R is no unit\x1b[2J
    2 | µ = 12 V/R
      |          ^
  hint: put spaces around /
here/notes.md:1:1: V is defined here
    1 | V = 10 V
      | ^^^^^^^^
`
	if out.String() != want {
		t.Errorf("got:\n%s\nwant:\n%s", out.String(), want)
	}
}

// TestNotesAlike prints of many notes that say the same the first few, each at its
// place, and how many more there are.
func TestNotesAlike(t *testing.T) {
	var out strings.Builder
	tl := newTool(strings.NewReader(""), &out, &out)
	tl.err.colour = false
	o := sample()
	o.result.Report = nil
	for i := range 12 {
		d := message.Diagnostic{Summary: "is never used", Hint: "take it out"}
		if i%3 == 0 {
			d.Summary = "is used late"
		}
		o.result.Notes = append(o.result.Notes, d)
	}
	tl.showFindings(tl.err, o)
	for says, want := range map[string]int{"is never used": 3, "is used late": 3, "and 5 more like it": 1, "and 1 more like it": 1, "more like it": 2} {
		if got := strings.Count(out.String(), says); got != want {
			t.Errorf("%q %d times, want %d:\n%s", says, got, want, out.String())
		}
	}
}

func TestJSON(t *testing.T) {
	var out strings.Builder
	tl := newTool(strings.NewReader(""), &out, &out)
	report := wire.NewReport(tl.out)
	report.Add(sample().form())
	if err := report.End(); err != nil {
		t.Fatal(err)
	}
	want := `{"schema": 1, "worksheets": [{"path": "here/notes.md", "changed": true,
		"quantities": [
			{"name": "V", "line": 1, "si": 10, "si_unit": "V", "shown": "10 V", "u": null, "dof": null, "given": true, "note": "read"},
			{"name": "store.ok", "line": 1, "si": null, "si_unit": "", "value": true, "shown": "yes", "u": null, "dof": null, "given": false, "note": ""},
			{"name": "store.kind", "line": 1, "si": null, "si_unit": "", "value": "disc", "shown": "disc", "u": null, "dof": null, "given": false, "note": ""},
			{"name": "µ", "line": 2, "si": null, "si_unit": "", "shown": "—", "u": null, "dof": null, "given": false, "note": ""}],
		"limits": [
			{"line": 3, "text": "V <= 8 V", "holds": false, "worked": "10 V", "allowed": "8 V", "headroom": "-25 %",
				"si_unit": "V", "worked_si": 10, "low_si": null, "high_si": 8, "headroom_si": -2, "headroom_ratio": null},
			{"line": 3, "text": "µ <= 8 A", "holds": null, "worked": "—", "allowed": "8 A", "headroom": "",
				"si_unit": "", "worked_si": null, "low_si": null, "high_si": null, "headroom_si": null, "headroom_ratio": null}],
		"cautions": [
			{"id": "stored-energy", "kind": "standing", "level": "danger", "line": 1, "text": "It holds 3 J.", "source": "common practice"},
			{"id": "limit", "kind": "limit", "level": "warning", "line": 3, "text": "Too much.", "source": ""}],
		"tables": [
			{"verb": "vary", "name": "s", "line": 2, "columns": [{"head": "V [mV]", "si_unit": "V"}, {"head": "Note", "si_unit": ""}],
				"rows": [{"values": [0.012, ""], "shown": ["12", ""]}, {"values": [null, "not worked"], "shown": ["—", "not worked"]}], "notes": ["It is so."]},
			{"verb": "tune", "name": "", "line": 2, "columns": [], "rows": [], "notes": []}],
		"charts": [],
		"errors": [
			{"line": 2, "column": 10, "end_column": 11, "summary": "R is no unit\u001b[2J", "hint": "put spaces around /"}]}]}`
	if a, b := decode(t, out.String()), decode(t, want); !reflect.DeepEqual(a, b) {
		t.Errorf("got:\n%s", out.String())
	}
	if strings.ContainsRune(out.String(), '\x1b') {
		t.Error("a control stands raw in the JSON")
	}
}

func decode(t *testing.T, text string) (x any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), &x); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return x
}

func TestStatus(t *testing.T) {
	broken := sample()
	broken.result.Report.Errors = nil
	fresh := outcome{result: &worksheet.Result{Report: &report.Report{}}}
	changed := outcome{result: &worksheet.Result{Output: []byte("x"), Report: &report.Report{}}}
	checked := changed
	checked.checked = true
	refused := outcome{result: &worksheet.Result{Refused: make([]message.Diagnostic, 1)}}
	for name, test := range map[string]struct {
		o    outcome
		want int
	}{
		"error": {sample(), attention}, "limit": {broken, attention}, "fresh": {fresh, fine},
		"changed": {changed, fine}, "stale": {checked, attention}, "refused": {refused, failed},
		"unread": {outcome{err: errBusy}, failed},
	} {
		if got := test.o.status(); got != test.want {
			t.Errorf("%s: %d, want %d", name, got, test.want)
		}
	}
}
