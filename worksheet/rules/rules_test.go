package rules

import (
	"strings"
	"testing"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// page reads rules as they stand between the fences.
func page(t *testing.T, text string) ([]*Rule, []message.Diagnostic) {
	t.Helper()
	return ReadPage("club.md", lineOf(text))
}

// lineOf is a text as one block.
func lineOf(text string) [][]syntax.Line {
	var lines []syntax.Line
	at := 0
	for _, l := range strings.Split(text, "\n") {
		lines = append(lines, syntax.Line{Text: l, Offset: at})
		at += len(l) + 1
	}
	return [][]syntax.Line{lines}
}

// journalText has a line for each row of journal.
const journalText = "one\ntwo\nthree\nfour\nfive\nsix\nseven\n"

func on(line int) message.Span {
	at := 0
	for i, l := range strings.SplitAfter(journalText, "\n") {
		if i+1 == line {
			return message.Span{File: "a.md", Start: at, End: at + len(l) - 1}
		}
		at += len(l)
	}
	panic("no such line")
}

func journal() *Journal {
	r := &report.Report{Sheet: "a.md",
		Quantities: []report.Quantity{
			{Name: "V_full", Path: "a.md", Span: on(1), Value: 12.5, Kind: units.MustParse("V").Kind, Shown: "12.5 V", Given: true, Note: "on the meter", Uncertainty: report.Uncertainty{U: 0.05, Expanded: 0.1}},
			{Name: "n", Path: "a.md", Span: on(2), Value: 5.0, Kind: units.MustParse("1").Kind, Shown: "5", Given: true},
			{Name: "down.control_margin", Path: "a.md", Span: on(3), Value: 38.0, Kind: units.MustParse("s").Kind, Shown: "38 s"},
			{Name: "up.control_margin", Path: "a.md", Span: on(4), State: report.Failed, Shown: "—"},
			{Name: "elsewhere", Path: "b.md", Span: message.Span{File: "b.md"}, Value: 1.0, Kind: units.MustParse("V").Kind},
			{Name: "warm", Path: "a.md", Span: on(5), Value: 293.15, Kind: units.MustParse("°C").Kind, Point: true, Shown: "20 °C", Uncertainty: report.Uncertainty{U: 0.5, Expanded: 1}},
			{Name: "treadle", Path: "a.md", Span: on(6), Value: 8.0, Kind: units.MustParse("rpm").Kind, Shown: "76 rpm"},
			{Name: "ready", Path: "a.md", Span: on(6), Value: true, Shown: "yes"},
		},
		Limits: []report.Limit{{Span: on(6), Text: "a <= b", Holds: true}, {Span: on(7), Text: "worst_cell_voltage(store, V) <= 2.7 V", State: report.Waiting}},
		Cautions: []report.Caution{{Span: on(2), ID: "spinning-rotor", Kind: report.OfStanding, Level: model.Danger, Text: "it spins"},
			{Span: on(3), ID: "limit", Kind: report.OfLimit, Level: model.Warning}},
		Errors: []message.Diagnostic{{Span: on(4), Summary: "no such thing"}},
		Blocks: []report.Block{{
			Tables: []report.Table{{Verb: "vary", Name: "study", Span: on(1), Columns: []report.Column{{Head: "n"}, {Head: "t"}}, Rows: [][]string{{"1", "2"}}}},
			Charts: []report.Chart{{Title: "A charge", Span: on(5), Alt: "V against t"}},
		}},
	}
	return NewJournal("journals/a.md", r, []byte(journalText))
}

// TestJudge gives each rule with the lines where it is broken, 0 for the file.
func TestJudge(t *testing.T) {
	for _, c := range []struct {
		rule  string
		lines []int
	}{
		{`every quantity where name endsWith ".control_margin": value >= 40 s`, []int{3, 4}},
		{`every quantity where name endsWith ".control_margin" and not failed: value >= 0.6 min`, nil},
		{`every quantity where name endsWith ".control_margin" and not failed: value >= 0.7 min`, []int{3}},
		{`every given where unit == "V": uncertain or note != ""`, nil},
		{`every given where unit == "mV": uncertain or note != ""`, nil},
		{`every given: uncertain or note != ""`, []int{2}},
		{`every given where unit == "V": uncertainty <= 50 mV`, []int{1}},
		{`every given where unit == "V": uncertainty / value <= 0.8 %`, nil},
		{`every given where unit == "V": uncertainty / value <= 0.79 %`, []int{1}},
		{`some limit where text contains "worst_cell_voltage"`, nil},
		{`some limit where text contains "worst_cell_voltage": kept`, []int{0}},
		{`some quantity where name == "mass"`, []int{0}},
		{`no caution where level == "danger"`, []int{2}},
		{`no caution where level == "danger" and kind != "standing"`, nil},
		{`no caution: level in ["danger", "warning"]`, []int{2, 3}},
		{`every limit: kept`, []int{7}},
		{`no error`, []int{4}},
		{`every table: "t" in columns and rows >= 1`, nil},
		{`no table where verb == "vary"`, []int{1}},
		{`every chart: len(title) > 10`, []int{5}},
		// A value of another dimension is not above, below or unlike 40 s: such
		// a row is passed over where it is chosen, and told of where it is judged.
		{`no quantity where value > 40 s`, nil},
		{`no quantity where not (value > 40 s)`, []int{3}},
		{`every given: value > 3 V`, []int{2}},
		{`every quantity where unit == "°C": 15 °C <= value <= 25 °C`, nil},
		{`every quantity where unit == "°C": value <= -5 °C`, []int{5}},
		{`every quantity where unit == "K": uncertainty <= 1 K and high - low <= 2 K`, nil},
		{`every given: value > 0`, nil},
		{`every given where unit == "V": value ≥ 12 V and value ≠ 13 V`, nil},
		{`every given where unit == "V": value * 2 == 25 V and abs(value - 12 V) <= 0.5 V and max(value, low) == 12.5 V`, nil},
		{`every given where unit == "V": value > -5 V and 3 V - 1 V < value and value-1 V > 0 V`, nil},
		{`every quantity where name == "treadle": value < 80 rpm`, nil},
		{`every quantity where name == "treadle": value < 80 Hz`, []int{6}},
		{`no quantity where holds`, []int{6}},
		{`every quantity where line < 2: journal startsWith "journals/"  # a remark`, nil},
	} {
		rules, problems := page(t, c.rule)
		if len(problems) > 0 {
			t.Errorf("%s: %+v", c.rule, problems)
			continue
		}
		j := journal()
		var lines []int
		for _, d := range rules[0].Judge(j) {
			line := 0
			if d.Span.End > 0 {
				line, _ = j.source.Position(d.Span.Start)
			}
			lines = append(lines, line)
		}
		if len(lines) != len(c.lines) {
			t.Errorf("%s: broken on %v, want %v", c.rule, lines, c.lines)
			continue
		}
		for i := range lines {
			if lines[i] != c.lines[i] {
				t.Errorf("%s: broken on %v, want %v", c.rule, lines, c.lines)
			}
		}
	}
}

// TestMistakes gives each rule with what is underlined, what is said, and what of
// the hint.
func TestMistakes(t *testing.T) {
	for _, c := range []struct{ rule, at, says, hint string }{
		{`each limit: kept`, "each", "begins with every, some or no", "every limit"},
		{`evry limit: kept`, "evry", "begins with every", "did you mean `every`?"},
		{`every limits: kept`, "limits", "`limits` is nothing that can be looked for", "did you mean `limit`?"},
		{`every limit`, "", "`every` wants a colon", "a limit tells text, kept"},
		{`every limit where kept`, "", "`every` wants a colon", ""},
		{`every limit:`, "", "a condition is missing", "a limit tells"},
		{`every limit when kept: kept`, "when", "stands `where`", "limit where"},
		{`every limit: headrom >= 5 %`, "headrom", "`headrom` is nothing that a limit tells", "did you mean `headroom`? a limit tells text"},
		{`every limit: headroom >= 5 s`, ">=", "`headroom`, a pure number, cannot be set against `5 s`, a time (s),", "leave the unit out"},
		{`every limit: headroom >= 5s`, "5s", "a space is missing", "`5 s`"},
		{`every limit: headroom >= 5 sek`, "sek", "no unit", ""},
		{`every limit: headroom = 5 %`, "=", "`==` asks for one", "write `==`"},
		{`every limit: headroom >=`, "", "not finished", "a limit tells"},
		{`every limit: kept and`, "", "not finished", "a limit tells"},
		{`every limit: kept kept`, "kept", "not expected here", "`and` or `or`"},
		{`every limit: text > 5`, "text", "`>` wants a number, and this is a text", "a number is worked, allowed, headroom"},
		{`every limit: text == 5`, "==", "a text is never a number", ""},
		{`every limit: headroom`, "headroom", "this is a number, and no condition", "a truth (yes or no) is kept, doubtful"},
		{`every caution: level != "dangr"`, `"dangr"`, "`level` never is \"dangr\"", `did you mean "danger"? it is advice, warning, danger`},
		{`every given: unit != "Volt"`, `"Volt"`, "no unit", ""},
		{`every given: value in [1 V]`, "1 V", "a list here is one of texts", "< and >"},
		{`every given: now() > 5`, "now", "`now` is nothing that a condition can call", "len, lower"},
		{`every table: all(columns, true)`, "", "", ""},
		{`every given: value.x > 5`, "", "a condition is made of", "a given tells"},
		{`every given: uncertainty < 2 °C`, "<", "is a difference", "in K"},
		{`every given: value * value > 4 V^2`, "*", "the same for all rows", ""},
		{`every given: 3 s > 2 V`, ">", "`3 s`, a time (s), cannot be set against `2 V`", "the same dimension"},
		{`every given: name == 'x'`, "'", "double quotes", ""},
		{`every given: name == "x`, `"x`, "no closing quote", ""},
		{`every given: kept // yes`, "//", "a remark begins with #", ""},
		{`every given: given ? uncertain : failed`, "", "", ""},
		{`every given: 1` + strings.Repeat(" + 1", 200) + ` > 2`, "", "too long", "several rules"},
		{`every given: ` + strings.Repeat("(", 1000) + "given" + strings.Repeat(")", 1000) + ` and ` + strings.Repeat("given or ", 10) + "given", "", "at most 2000", "several rules"},
		{`every given: let x = 1; x > 0`, "", "", ""},
		{`every given: name matches "("`, "matches", "pattern", "brackets"},
	} {
		_, problems := page(t, c.rule)
		if len(problems) != 1 {
			t.Errorf("%s: %d problems", c.rule, len(problems))
			continue
		}
		d := problems[0]
		if at := c.rule[d.Span.Start:d.Span.End]; c.at != "" && at != c.at || !strings.Contains(d.Summary, c.says) || !strings.Contains(d.Hint, c.hint) {
			t.Errorf("%.80s\n at %q: %s | %s\n want at %q: %s | %s", c.rule, at, d.Summary, d.Hint, c.at, c.says, c.hint)
		}
	}
}
