package present

import (
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// cautions are what the models raised: a standing hazard once a worksheet, any
// other once for each finding.
func cautions(w *working.Evaluation) (list []report.Caution) {
	seen := map[string]bool{}
	for _, r := range w.Machine.Raised() {
		if r.Def.Sheet != w.Program.Main {
			continue
		}
		c := raised(r)
		key := c.ID
		if !r.Standing {
			key += c.Text
		}
		if !seen[key] {
			seen[key] = true
			list = append(list, c)
		}
	}
	return list
}

func raised(r run.Raised) report.Caution {
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
