package present

import (
	"slices"
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
	says := func(part string) string {
		if part == "" {
			return ""
		}
		return message.Sentence(run.Fill(part, r.Values, units.Kind{}))
	}
	c := report.Caution{
		ID: r.ID, Kind: kind, Level: r.Level, Span: r.Span, Block: r.Def.Block, Source: r.Source,
		Summary: says(r.Summary), Why: says(r.Why), Hint: says(r.Hint),
	}
	c.Text = sentences(c.Summary, c.Why, c.Hint)
	return c
}

// sentences are parts one behind another, those that there are.
func sentences(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " ")
}
