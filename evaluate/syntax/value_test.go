package syntax

import (
	"strings"
	"testing"
)

func TestParseValue(t *testing.T) {
	for _, c := range []struct{ text, tree string }{
		{"12", "12"}, {" 12 ", "12"}, {"47 mF", "47{mF}"}, {"10 V ± 0.1 V", "(± 10{V} 0.1{V})"}, {"-3", "-3"},
		{"-20 °C", "-20{°C}"}, {"(12.50 ± 0.25) F", "(± 12.50{F} 0.25{F})"}, {"(-12.5 ± 0.2) °C", "(± -12.5{°C} 0.2{°C})"},
		{"(80.0 ± 4.0) %", "(± 80.0{%} 4.0{%})"},
		{"50 F within 20 %", "(within 50{F} 20{%})"}, {"within 45 F to 65 F", "(within _ 45{F} to 65{F})"},
		{"90°", "90{°}"}, {"1.2e-3", "1.2e-3"}, {"10_000", "10_000"}, {"47\u00a0mF", "47{mF}"}, {"12 ± 0.5", "(± 12 0.5)"},
	} {
		x, problem := ParseValue("a.md", c.text, 100)
		if problem != nil {
			t.Errorf("%q: %v", c.text, *problem)
			continue
		}
		if got := printed(x); got != c.tree {
			t.Errorf("%q: got %s, want %s", c.text, got, c.tree)
		}
	}
}

func TestParseValueMistakes(t *testing.T) {
	for _, c := range []struct{ text, summary string }{
		{"«12V»", "a space is missing between a number and its unit"},
		{"«1,5» V", "a comma between two digits can be read two ways"},
		{"«.5»", "a digit is missing before the point"},
		{"«80 % ± 4 %»", "this can be read two ways: points of `%`, or a part of the value"},
		{"«x»", "a number is wanted in this cell"},
		{"«1 + 2»", "a number is wanted in this cell"},
		{"«-2^2»", "a number is wanted in this cell"},
		{"«x ± 1»", "a number is wanted in this cell"},
		{"«»", "a number is wanted in this cell"},
		{"«  »", "a number is wanted in this cell"},
		{"«1/2 V»", "this can be read two ways: is the unit below the line or not?"},
		{"12 V «3»", "`3` cannot stand in a cell"},
		{"12 ±«» ", "the cell ends where a number with its unit is wanted"},
		{"«(»12", "this bracket is not closed"},
		{"12 «\u202e»", "an invisible character, `\\u202e`, stands here"},
	} {
		text, at := cut(t, c.text)
		x, problem := ParseValue("a.md", text, 100)
		if problem == nil {
			t.Errorf("%q: got %s", text, printed(x))
			continue
		}
		if problem.Summary != c.summary || problem.Span.Start != at.Start+100 || problem.Span.End != at.End+100 {
			t.Errorf("%q: got %q at %d-%d, want %q at %d-%d", text, problem.Summary, problem.Span.Start, problem.Span.End, c.summary, at.Start+100, at.End+100)
		}
	}
}

func TestNotes(t *testing.T) {
	tree, problems := Parse("a.md", blockOf("a = 1 # one\n# alone\nb = [1, # first\n  2] ## second \n  # by itself\nc = \"#\"\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for i, want := range []string{"one", "first second", ""} {
		if got := tree.Statements[i].Common().Note; got != want {
			t.Errorf("note %d is %q, want %q", i, got, want)
		}
	}
}

// Offsets come from the lines, which in a quote do not follow one another; a
// line whose tab was widened may begin before the file.
func TestOffsets(t *testing.T) {
	tree, _ := Parse("a.md", []Block{{[]Line{{"    a = 12 V", -3}, {"      + b", 40}}}, {[]Line{{"c = 3", 90}}}})
	first := tree.Statements[0].(*Definition)
	if first.Span.Start != 1 || first.Span.End != 49 {
		t.Errorf("statement at %v", first.Span)
	}
	unit := first.Value.(*Binary).X.(*Number).Unit
	if unit.Span.Start != 8 || unit.Span.End != 9 {
		t.Errorf("unit at %v", unit.Span)
	}
	if s := tree.Statements[1]; s.Common().Block != 1 || s.Place().Start != 90 {
		t.Errorf("second block: %+v", s.Common())
	}
	clamped, _ := Parse("a.md", []Block{{[]Line{{"a = 1", -3}}}})
	if s := clamped.Statements[0].Place(); s.Start != 0 || s.End < s.Start {
		t.Errorf("clamped to %v", s)
	}
}

// Several parsers may run at once.
func TestParseConcurrently(t *testing.T) {
	for range 4 {
		t.Run("", func(t *testing.T) {
			t.Parallel()
			for _, c := range accepted {
				if _, problems := Parse("a.md", blockOf(c.text)); len(problems) > 0 {
					t.Error(problems)
				}
			}
		})
	}
}

func TestLimits(t *testing.T) {
	nested := func(open, close string, n int) string {
		return "x = " + strings.Repeat(open, n) + "a" + strings.Repeat(close, n)
	}
	long := func(n int) string { return "x = a" + strings.Repeat(" ", n-6) + "#" }
	for _, c := range []struct {
		name, most, over, summary string
	}{
		{"brackets", nested("(", ")", MaxNesting), nested("(", ")", MaxNesting+1), "this is nested more than 100 deep"},
		{"lists", nested("[", "]", MaxNesting), nested("[", "]", MaxNesting+1), "this is nested more than 100 deep"},
		{"calls", nested("f(", ")", MaxNesting), nested("f(", ")", MaxNesting+1), "this is nested more than 100 deep"},
		{"signs", nested("- ", "", MaxNesting), nested("- ", "", MaxNesting+1), "this is nested more than 100 deep"},
		{"not", nested("not ", "", MaxNesting), nested("not ", "", MaxNesting+1), "this is nested more than 100 deep"},
		{"powers", nested("a^", "", MaxNesting), nested("a^", "", MaxNesting+1), "this is nested more than 100 deep"},
		{"branches", nested("if a then a else ", "", MaxNesting), nested("if a then a else ", "", MaxNesting+1), "this is nested more than 100 deep"},
		{"statement", long(MaxStatement), long(MaxStatement + 1), "this statement is longer than 65536 bytes"},
		{"number", "x = " + strings.Repeat("1", MaxNumber), "x = " + strings.Repeat("1", MaxNumber+1), "this number is too long"},
	} {
		if _, problems := Parse("a.md", blockOf(c.most)); len(problems) > 0 {
			t.Errorf("%s at the limit: %v", c.name, problems)
		}
		if _, problems := Parse("a.md", blockOf(c.over)); len(problems) != 1 || problems[0].Summary != c.summary {
			t.Errorf("%s over the limit: %v", c.name, problems)
		}
	}
}

func TestStatementsLimit(t *testing.T) {
	const most = 1000
	text := strings.Repeat("a=1\n", most)
	if tree, problems := parse(t.Context(), "a.md", blockOf(text), most, Earlier{}); len(tree.Statements) != most || len(problems) > 0 {
		t.Errorf("under the limit: %d statements, %v", len(tree.Statements), problems)
	}
	tree, problems := parse(t.Context(), "a.md", blockOf(text+"b=1\n"), most, Earlier{})
	if len(tree.Statements) != most {
		t.Errorf("at the limit: %d statements", len(tree.Statements))
	}
	if len(problems) != 1 || problems[0].Span.Start != len(text) {
		t.Errorf("over the limit: %v", problems)
	}
}
