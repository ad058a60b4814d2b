package present

import (
	"math"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/units"
)

// altDigits is enough to say where a line begins and ends, if it goes far;
// mostDigits is what is told of one that hardly moves.
const altDigits, mostDigits = 3, 9

// alt says in words what a chart shows: what is drawn against what, and from
// where to where.
func (p *plotted) alt(c *report.Chart, x units.Unit) string {
	var lines []string
	for _, group := range p.panels() {
		y := p.panelUnit(group)
		for _, i := range group {
			for _, s := range p.series {
				if s.line == i {
					lines = append(lines, p.seriesText(s, y))
				}
			}
		}
	}
	text := c.Title + ": " + strings.Join(lines, "; ") + "; against " + message.Words(c.X.Name) + p.along(c, x)
	var rules []string
	for _, panel := range c.Panels {
		for _, r := range panel.Rules {
			rules = append(rules, ruleText(r, panel.Unit))
		}
	}
	switch len(rules) {
	case 0:
	case 1:
		text += "; limit " + rules[0]
	default:
		text += "; limits " + strings.Join(rules, ", ")
	}
	return text + "."
}

// mostNames is how many names are told one by one.
const mostNames = 6

// along is where an axis begins and ends, or the names that stand along it.
func (p *plotted) along(c *report.Chart, x units.Unit) string {
	switch n := len(c.Labels); {
	case n == 0:
		return " " + span(p.xs(), x)
	case n > mostNames:
		return ", " + strconv.Itoa(n) + " bars, " + c.Labels[0] + " to " + c.Labels[n-1]
	}
	return ": " + message.Enumerate(c.Labels)
}

func (p *plotted) seriesText(s siSeries, y units.Unit) string {
	text := message.Words(p.name(s))
	if p.drawing.Tables[s.source].Measured {
		text += ", measured,"
	}
	if s.u != nil {
		text = strings.TrimSuffix(text, ",") + ", with its interval,"
	}
	return text + " " + span(s.y, y)
}

// span is the smallest and the largest of some SI values, as 0–12.5 V; a dash would
// take a sign for its own.
func span(si []float64, u units.Unit) string {
	low, high := bounds(si)
	digits := digitsApart(u.FromSI(low), u.FromSI(high))
	text, dash := units.Show(high, u, digits), "–"
	if low < 0 {
		dash = " to "
	}
	if low < high {
		text = units.Number(u.FromSI(low), digits) + dash + text
	}
	return text
}

// digitsApart is how many digits tell two numbers apart to a tenth of what is
// between them at the least.
func digitsApart(low, high float64) int {
	size := math.Max(math.Abs(low), math.Abs(high))
	if high <= low {
		return altDigits
	}
	return min(mostDigits, max(altDigits, int(math.Ceil(math.Log10(size/(high-low))))+2))
}

// ruleText is a limit with its number, once where the number is all it says.
func ruleText(r report.Rule, unit string) string {
	at := strings.TrimSpace(units.Number(r.At, altDigits) + " " + unit)
	if r.Name == at {
		return at
	}
	return message.Words(r.Name) + " (" + at + ")"
}
