package page_test

import (
	"context"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
)

// TestReach marks what may be tried where it is shown: in a call, in a call inside
// another, in a cell, a row that is picked; and nothing that is not within reach.
func TestReach(t *testing.T) {
	text := "# Notes\n\n<!-- table: cells -->\n\n| cell | capacitance [F] | resistance [mΩ] | rated_voltage [V] | mass [g] |\n| :--- | ---: | ---: | ---: | ---: |\n| L50 | 50 | 12 | 2.7 | 13 |\n| L`60` | 60 | 11 | 2.7 | 14 |\n\n" +
		"```working\ncell = cells[\"L50\"]\nmass = 350 g\nstore = pack(cell, series: 5)\nspare = pack(capacitor_cell(capacitance: 47 F, resistance: 10 mΩ, rated_voltage: 2.6 V), series: 4)\nweight = mass * 9.81 m/s^2\n```\n"
	doc := markdown.Parse("notes.md", []byte(text))
	reach := map[int]string{}
	wanted := map[string]string{"cell": `cells["L50"]`, "mass": "350 g", "store(series)": "5)", `cells["L50"].mass`: "13 |"}
	for name, at := range wanted {
		reach[strings.Index(text, at)] = name
	}
	s := page.Source{Document: doc, Reach: func(at message.Span) (string, bool) {
		name, ok := reach[at.Start]
		return name, ok && at.File == "notes.md"
	}}
	s.Report, s.Lines = evaluate.Lines(t.Context(), doc.Sheet(), files{})
	found := map[string]string{}
	each(parsed(t, page.Make(context.Background(), s)), func(n *html.Node) {
		if name := attribute(n, "data-name"); name != "" {
			found[name] += strings.Join(strings.Fields(content(n)), " ")
		}
	})
	for name, shows := range map[string]string{"cell": "cell", "mass": "mass=350g", "store(series)": "5", `cells["L50"].mass`: "13"} {
		if got := strings.NewReplacer(" ", "", "\u00a0", "", "\u2009", "").Replace(found[name]); got != shows {
			t.Errorf("%s stands at %q, want %q", name, found[name], shows)
		}
	}
	if len(found) != len(wanted) {
		t.Errorf("marked: %q", found)
	}
}

// TestReachInFormula marks the arguments of calls in formulas where they stand, and all
// that are left out at the dots that stand for them. Nothing else of the page changes.
func TestReachInFormula(t *testing.T) {
	text := block("f(x) = 2 * x\na = f(3 V) + f(x: 4 V)\nb = sqrt(9 m^2)\nE = 2 * stored_energy(12 F, 3 V ± 0.1 V)")
	doc := markdown.Parse("notes.md", []byte(text))
	reach := map[int]string{}
	for at, name := range map[string]string{"3 V)": "a(x)", "4 V)": "a(2)", "9 m": "b(x)", "12 F": "E(capacitance)", "3 V ±": "E(voltage)"} {
		reach[strings.Index(text, at)] = name
	}
	s := page.Source{Document: doc}
	s.Report, s.Lines = evaluate.Lines(t.Context(), doc.Sheet(), files{})
	without := textOf(parsed(t, page.Make(context.Background(), s)))
	s.Reach = func(at message.Span) (string, bool) { name, ok := reach[at.Start]; return name, ok }
	found := map[string]string{}
	with := parsed(t, page.Make(context.Background(), s))
	each(with, func(n *html.Node) {
		if name := attribute(n, "data-name"); name != "" {
			found[name] += bare(content(n)) + attribute(n, "data-also")
		}
	})
	for name, shows := range map[string]string{"a(x)": "3 V", "a(2)": "4 V", "b(x)": "9 m²", "E(capacitance)": `…["E(voltage)"]`} {
		if found[name] != bare(shows) {
			t.Errorf("%s stands at %q, want %q", name, found[name], shows)
		}
		delete(found, name)
	}
	if len(found) > 0 {
		t.Errorf("marked beside: %q", found)
	}
	if textOf(with) != without {
		t.Error("the page says otherwise with marks")
	}
}

// content is the text of an element.
func content(n *html.Node) string {
	var out strings.Builder
	each(n, func(n *html.Node) {
		if n.Type == html.TextNode {
			out.WriteString(n.Data)
		}
	})
	return out.String()
}
