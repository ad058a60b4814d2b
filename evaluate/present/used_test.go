package present_test

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
)

// shelf is a used page with two limits, one of them broken.
const shelf = "U = 12 V\ntop = 13.5 V\nlog = vary U in 10 V to 14 V by 1 V: E [J]\nE = 2 F * U^2\nlimit U <= top\nlimit E <= 200 J\n  \"Fewer volts.\""

// TestOverviewOfUsed wants the limits of used pages in the overview, those broken first,
// each once and with the page that it is of.
func TestOverviewOfUsed(t *testing.T) {
	page := kit.Block("notes.md", "overview\nuse \"shelf.md\"\nn = 3\nlimit n <= 4\nlimit shelf.U <= shelf.top")
	r := kit.Clean(t, evaluate.Work(t.Context(), page, kit.Sheets{"shelf.md": kit.Block("shelf.md", shelf)}), "overview")
	o := r.Blocks[0].Overview
	var got []string
	for _, l := range o.Limits {
		got = append(got, strings.TrimSpace(l.Of+" "+l.Text))
	}
	if text := strings.Join(got, "; "); text != "shelf E <= 200 J; shelf.U <= shelf.top; n <= 4" {
		t.Error(text)
	}
	if o.Summary != "In short: of 3 limits 1 broken." {
		t.Error(o.Summary)
	}
}

// TestChartRuleOfUsed draws the limits of a used page on what is charted of it.
func TestChartRuleOfUsed(t *testing.T) {
	page := kit.Block("notes.md", `use "shelf.md"
sweep = vary shelf.U in 10 V to 14 V by 1 V: shelf.E [J]
chart "Energy": shelf_E [J] against shelf_U from sweep
chart "Log": U [V] against E [J] from shelf.log
chart "Volts": shelf_U [V] against shelf_E [J] from sweep`)
	r := kit.Clean(t, evaluate.Work(t.Context(), page, kit.Sheets{"shelf.md": kit.Block("shelf.md", shelf)}), "charts")
	var got []string
	for _, c := range r.Blocks[0].Charts {
		for _, rule := range c.Panels[0].Rules {
			got = append(got, fmt.Sprintf("%s: %s at %g", c.Title, rule.Name, rule.At))
		}
	}
	if text := strings.Join(got, "; "); text != "Energy: 200 J at 200; Volts: shelf.top at 13.5" {
		t.Error(text)
	}
}
