package wire

import (
	"encoding/json"
	"encoding/xml"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// lines puts an offset on the line of its hundreds.
type lines struct{}

func (lines) At(s message.Span) (line, column, end int) {
	return s.Start / 100, s.Start%100 + 1, s.End%100 + 1
}
func (lines) Display(file string) string { return "beside/" + file }

func at(line, from, to int) message.Span {
	return message.Span{File: "n.md", Start: 100*line + from, End: 100*line + to}
}

// trouble is a worksheet with one of everything.
func trouble() Outcome {
	r := &report.Report{Sheet: "n.md",
		Errors: []message.Diagnostic{{Span: at(3, 4, 9), Summary: "no quantity `x`, 100 % sure", Hint: "write\n`y`"},
			{Span: message.Span{File: "parts.md", Start: 200, End: 203}, Summary: "a number is wanted"}},
		Limits: []report.Limit{
			{Span: at(5, 0, 12), Text: "a <= 3 V", Value: "4 V", Allowed: "3 V", Advice: "Use less."},
			{Span: at(6, 0, 12), Text: "b <= 3 V", Holds: true},
			{Span: at(7, 0, 12), Text: "c <= 3 V", State: report.Waiting}},
	}
	return Outcome{Path: "a b/ü,%1:2.md", Checked: true, Stale: true, Places: lines{},
		Result: &worksheet.Result{Path: "n.md", Source: []byte("x"), Report: r, Notes: []message.Diagnostic{{Span: at(9, 0, 3), Summary: "nearly a block"}}},
		Rules: []Judged{{Text: "no error", Broken: []message.Diagnostic{{Span: at(3, 4, 9), Summary: "broken by the error"}}},
			{Text: "every limit: kept"}, {Text: "some chart", Broken: []message.Diagnostic{{Span: message.Span{File: "n.md"}, Summary: "broken"}}}}}
}

// TestSarif holds the log against the schema of the standard. Its text is that of
// the OASIS (errata 01), which a Go module carries.
func TestSarif(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile("testdata/sarif-schema-2.1.0.json")
	if err != nil {
		t.Fatal(err)
	}
	full := NewSarif("v1.2.3")
	full.Add(trouble())
	full.Add(Outcome{Path: "/gone.md", Fault: "does not exist", Hint: "name a file"})
	refusedOne := trouble()
	refusedOne.Result = &worksheet.Result{Path: "n.md", Refused: []message.Diagnostic{{Span: at(1, 0, 4), Summary: "not closed"}}}
	full.Add(refusedOne)
	for name, log := range map[string]*Sarif{"empty": NewSarif("v1"), "full": full} {
		var out strings.Builder
		if err := Encode(&out, log); err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(strings.NewReader(out.String()))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(doc); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out.String())
		}
	}
	results := full.Runs[0].Results
	if n := len(results); n != 12 {
		t.Errorf("%d results", n)
	}
	first := results[0]
	place := first.Locations[0].Physical
	if first.RuleID != "not-worked" || first.Level != "error" || *place.Region != (sarifRegion{3, 5, 10}) || place.Artifact.URI != "a%20b/%C3%BC,%251:2.md" {
		t.Errorf("%+v %+v", first, place)
	}
	if uri := results[1].Locations[0].Physical.Artifact.URI; uri != "beside/parts.md" {
		t.Error(uri)
	}
	for _, r := range results {
		if full.Runs[0].Tool.Driver.Rules[r.RuleIndex].ID != r.RuleID {
			t.Errorf("%s has the index %d", r.RuleID, r.RuleIndex)
		}
	}
}

// TestSarifSchema wants the schema to refuse what it should: else it proves nothing.
func TestSarifSchema(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile("testdata/sarif-schema-2.1.0.json")
	if err != nil {
		t.Fatal(err)
	}
	log := NewSarif("v1")
	log.Version = "2.0.0"
	text, _ := json.Marshal(log)
	doc, _ := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	if schema.Validate(doc) == nil {
		t.Error("another version passes")
	}
}

func TestURI(t *testing.T) {
	for name, want := range map[string]string{"a.md": "a.md", "../a b.md": "../a%20b.md", "/x/a.md": "file:///x/a.md", `C:\x\a.md`: "file:///C:/x/a.md", "a:b.md": "./a:b.md"} {
		if got := uri(name); got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
}

func TestGithub(t *testing.T) {
	var out strings.Builder
	Github(&out, trouble())
	path := "a b/ü%2C%251%3A2.md"
	want := "::error file=" + path + ",line=3,col=5,title=not-worked::no quantity `x`, 100 %25 sure; write%0A`y`\n" +
		"::error file=beside/parts.md,line=2,col=1,title=not-worked::a number is wanted\n" +
		"::warning file=" + path + ",line=5,col=1,title=limit::the limit a <= 3 V does not hold: worked 4 V, allowed 3 V; Use less.\n" +
		"::warning file=" + path + ",line=3,col=5,title=rule::the rule no error is broken by the error\n" +
		"::warning file=" + path + ",title=rule::the rule some chart is broken\n" +
		"::warning file=" + path + ",title=stale::the results are stale; inkwing run renews them\n" +
		"::notice file=" + path + ",line=9,col=1,title=note::nearly a block\n"
	if out.String() != want {
		t.Errorf("got\n%swant\n%s", out.String(), want)
	}
}

func TestJunit(t *testing.T) {
	var j Junit
	j.Add(trouble())
	j.Add(Outcome{Path: "fine.md", Result: &worksheet.Result{Path: "n.md", Report: &report.Report{}}, Places: lines{}})
	var out strings.Builder
	if err := j.Write(&out); err != nil {
		t.Fatal(err)
	}
	var back Junit
	if err := xml.Unmarshal([]byte(out.String()), &back); err != nil {
		t.Fatal(err)
	}
	// Lines, results, three limits, three rules; and one worksheet that is fine.
	if back.Tests != 9 || back.Errors != 1 || back.Failures != 4 || len(back.Suites) != 2 || back.Suites[0].Skipped != 1 {
		t.Errorf("%s", out.String())
	}
	limit := back.Suites[0].Cases[2]
	if limit.Name != "limit a <= 3 V" || len(limit.Failure) != 1 || limit.Failure[0].Message != "does not hold: worked 4 V, allowed 3 V; Use less." || limit.Failure[0].Text != "a b/ü,%1:2.md:5:1" {
		t.Errorf("%+v", limit)
	}
}

// TestReport wants the parts of a report to be one JSON text.
func TestReport(t *testing.T) {
	for n := range 3 {
		var out strings.Builder
		r := NewReport(&out)
		for range n {
			r.Add(trouble())
		}
		if err := r.End(); err != nil {
			t.Fatal(err)
		}
		var back struct {
			Schema     int
			Worksheets []Worksheet
		}
		if err := json.Unmarshal([]byte(out.String()), &back); err != nil || back.Schema != Schema || len(back.Worksheets) != n {
			t.Errorf("%d: %v\n%s", n, err, out.String())
		}
		var again strings.Builder
		if err := Encode(&again, json.RawMessage(out.String())); err != nil || again.String() != out.String() {
			t.Errorf("%d is laid out otherwise than in one piece:\n%s", n, out.String())
		}
	}
}
