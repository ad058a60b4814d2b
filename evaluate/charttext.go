package evaluate

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

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
	text := c.Title + ": " + strings.Join(lines, "; ") + "; against " + c.X.Name + " from " + span(p.xs(), x)
	var rules []string
	for _, panel := range c.Panels {
		for _, r := range panel.Rules {
			rules = append(rules, ruleText(r, panel.Unit))
		}
	}
	switch len(rules) {
	case 0:
	case 1:
		text += "; with the limit " + rules[0]
	default:
		text += "; with the limits " + strings.Join(rules, ", ")
	}
	return text + "."
}

func (p *plotted) seriesText(s siSeries, y units.Unit) string {
	text := p.name(s)
	if p.drawing.Tables[s.source].Measured {
		text += ", measured,"
	}
	if s.u != nil {
		text = strings.TrimSuffix(text, ",") + ", with its interval,"
	}
	return text + " from " + span(s.y, y)
}

// span is the smallest and the largest of some SI values.
func span(si []float64, u units.Unit) string {
	low, high := bounds(si)
	digits := digitsApart(u.FromSI(low), u.FromSI(high))
	return units.Show(low, u, digits) + " to " + units.Show(high, u, digits)
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
	return r.Name + " (" + at + ")"
}

// slugger makes the names of chart files, no two alike.
type slugger map[string]bool

// maxSlug bounds a file's name.
const maxSlug = 60

// next is a name for a title: small ASCII letters, digits and single dashes, so
// that no file system and no link reads anything else into it.
func (s slugger) next(title string) string {
	base := slug(title)
	name := base
	for n := 2; s[name]; n++ {
		name = fmt.Sprintf("%s-%d", base, n)
	}
	s[name] = true
	return name
}

// folded are the letters that are more than one with a mark.
var folded = strings.NewReplacer("ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "đ", "d", "ł", "l")

func slug(title string) string {
	var out strings.Builder
	dash := false
	for _, r := range norm.NFD.String(folded.Replace(strings.ToLower(title))) {
		if unicode.Is(unicode.Mn, r) {
			continue // the dots of ü: its letter stays
		}
		if !('a' <= r && r <= 'z' || '0' <= r && r <= '9') {
			dash = out.Len() > 0
			continue
		}
		if dash {
			out.WriteByte('-')
		}
		dash = false
		out.WriteRune(r)
	}
	name := out.String()
	if len(name) > maxSlug {
		name = strings.TrimRight(name[:maxSlug], "-")
	}
	if name == "" || isDevice(name) {
		name = strings.TrimRight("chart-"+name, "-")
	}
	return name
}

// isDevice reports whether Windows takes a name for a device, whatever its ending.
func isDevice(name string) bool {
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(name) == 4 && '0' <= name[3] && name[3] <= '9' && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt"))
}
