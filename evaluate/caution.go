package evaluate

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/units"
)

func (w *worker) caution(c report.Caution) {
	w.out.Cautions = append(w.out.Cautions, c)
	b := &w.out.Blocks[c.Block]
	b.Cautions = append(b.Cautions, c)
}

// cautions reports what the models raised: a standing hazard once a worksheet,
// any other once for each finding.
func (w *worker) cautions() {
	seen := map[string]bool{}
	for _, r := range w.machine.Raised() {
		if r.Def.Sheet != w.program.Main {
			continue
		}
		c := w.raised(r)
		key := c.ID
		if !r.Standing {
			key += c.Text
		}
		if !seen[key] {
			seen[key] = true
			w.caution(c)
		}
	}
}

func (w *worker) raised(r run.Raised) report.Caution {
	kind := report.OfModel
	if r.Standing {
		kind = report.OfStanding
	}
	parts := []string{r.Summary, r.Why, r.Hint}
	var text []string
	for _, p := range parts {
		if p != "" {
			text = append(text, message.Sentence(run.Fill(p, r.Values, units.Kind{})))
		}
	}
	return report.Caution{
		ID: r.ID, Kind: kind, Level: r.Level, Span: r.Span, Block: r.Def.Block,
		Text: strings.Join(text, " "), Source: r.Source,
	}
}
