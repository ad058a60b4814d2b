package chart

import (
	"math"
	"slices"
	"strconv"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/units"
)

// readings is at most how many rows of a chart's numbers its table has.
const readings = 40

// strips is how many of them stand under the pointer: each costs a page some bytes, and
// with so many they are as wide as a fingertip.
const strips = 20

// readingDigits is how many digits are told under the pointer and in the table.
const readingDigits = 4

// pointer lays strips over the data, each with a line and what stands there.
func (p *page) pointer(c report.Chart) {
	xs := thinned(places(c), strips)
	bottom := p.panels[len(p.panels)-1].bottom
	top := p.panels[0].top
	p.svg.raw(`<g class="at" fill="none" pointer-events="all" stroke-width="1" font-size="`, decimal(nameSize), `">`)
	from, height := decimal(top), "v"+decimal(bottom-top)
	says := namesOf(c)
	for i, x := range xs {
		left, right := p.left, p.right
		if i > 0 {
			left = p.x.at((xs[i-1] + x) / 2)
		}
		if i+1 < len(xs) {
			right = p.x.at((x + xs[i+1]) / 2)
		}
		begin := decimal(left)
		tip := cut(reading(c, says, x), nameSize, p.right-margin-width(p.xName, nameSize, false)-24)
		p.svg.raw(`<g><path d="M`, begin, " ", from, "H", decimal(right), height, "H", begin, `z"/><path d="M`, decimal(p.x.at(x)), " ", from, height,
			`"/><text x="`, decimal(margin), `" y="`, decimal(p.height-belowLast+36), `">`, escape(tip), "</text></g>")
	}
	p.svg.raw("</g>\n")
}

// namesOf are the names of the axis and of all series, as a reading has them.
func namesOf(c report.Chart) []string {
	names := []string{message.Words(clean(c.X.Name))}
	for _, panel := range c.Panels {
		for _, s := range panel.Series {
			names = append(names, message.Words(clean(s.Name)))
		}
	}
	return names
}

// reading is what stands at a place, with the names that [namesOf] gives: the nearest
// number of each series.
func reading(c report.Chart, names []string, x float64) string {
	out := make([]byte, 0, 128)
	if name, ok := nameAt(c, x); ok {
		out = append(out, clean(name)...)
	} else {
		out = appendReading(out, names[0], x, c.X.Unit)
	}
	for _, panel := range c.Panels {
		for _, s := range panel.Series {
			names = names[1:]
			if i := nearest(s.X, x); i >= 0 && i < len(s.Y) && drawable(s.Y[i]) {
				out = appendReading(append(out, ",  "...), names[0], s.Y[i], panel.Unit)
			}
		}
	}
	return string(out)
}

// nameAt is the name that stands at a place, on an axis of names.
func nameAt(c report.Chart, x float64) (string, bool) {
	if i := int(x) - 1; i >= 0 && i < len(c.Labels) {
		return c.Labels[i], true
	}
	return "", false
}

func appendReading(out []byte, name string, v float64, unit string) []byte {
	out = append(append(append(out, name...), ' '), units.Number(steady(v), readingDigits)...)
	if unit != "" {
		out = append(append(out, ' '), unit...)
	}
	return out
}

// steady is a number without its last digits, in which processors differ: what lies
// on a border between two roundings is rounded to one side by all of them.
func steady(v float64) float64 {
	const digits = 10
	near, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	if err != nil {
		return v // beyond what can be told
	}
	return near
}

func nearest(xs []float64, x float64) int {
	best := -1
	for i, v := range xs {
		if drawable(v) && (best < 0 || math.Abs(v-x) < math.Abs(xs[best]-x)) {
			best = i
		}
	}
	return best
}

// places are the numbers of the shared axis at which something is drawn, in order.
func places(c report.Chart) (xs []float64) {
	for _, panel := range c.Panels {
		for _, s := range panel.Series {
			for _, x := range s.X {
				if drawable(x) {
					xs = append(xs, x)
				}
			}
		}
	}
	slices.Sort(xs)
	return slices.Compact(xs)
}

// thinned is at most so many of some numbers, evenly spread, the ends among them.
func thinned(xs []float64, most int) []float64 {
	if len(xs) <= most {
		return xs
	}
	out := make([]float64, most)
	for i := range out {
		out[i] = xs[i*(len(xs)-1)/(most-1)]
	}
	return slices.Compact(out)
}

// Numbers are what a chart draws, as tables: the series of a panel that share
// their places on the axis stand in one.
func Numbers(c report.Chart) (tables []report.Table) {
	for _, group := range alike(c) {
		t := report.Table{Columns: []report.Column{column(c.X.Name, c.X.Unit)}}
		if len(c.Labels) > 0 {
			t.Columns[0] = report.Column{Head: message.Words(clean(c.X.Name))}
		}
		for _, s := range group {
			t.Columns = append(t.Columns, column(s.Name, s.unit))
		}
		at, step := chosen(len(group[0].X))
		t.Rows = cells(c, group, at)
		if step > 1 {
			t.Notes = []string{"Of " + units.Number(float64(len(group[0].X)), 9) + " rows each " + ordinal(step) + " is shown, and the last."}
		}
		tables = append(tables, t)
	}
	return tables
}

func ordinal(n int) string {
	text := units.Number(float64(n), 9)
	switch {
	case n%10 == 2 && n%100 != 12:
		return text + "nd"
	case n%10 == 3 && n%100 != 13:
		return text + "rd"
	case n%10 == 1 && n%100 != 11:
		return text + "st"
	}
	return text + "th"
}

// chosen are the rows that are shown, each so many and the last.
func chosen(all int) (at []int, step int) {
	step = max(1, (all+readings-1)/readings)
	for i := 0; i < all; i += step {
		if i+step >= all {
			i = all - 1
		}
		at = append(at, i)
	}
	return at, step
}

// cells are those rows of a table of series.
func cells(c report.Chart, group []numbered, at []int) [][]string {
	rows := make([][]string, len(at))
	for k, text := range within(group[0].X, nil, at) {
		if name, ok := nameAt(c, group[0].X[at[k]]); ok {
			text = name
		}
		rows[k] = append(rows[k], text)
	}
	for _, s := range group {
		for k, text := range within(s.Y, s.U, at) {
			rows[k] = append(rows[k], text)
		}
	}
	return rows
}

// within writes a column: where there are intervals, each number to where its ends.
func within(xs, us []float64, at []int) []string {
	var numbers []float64
	for _, i := range at {
		numbers = append(numbers, steady(xs[i]))
	}
	texts := units.Numbers(numbers, readingDigits)
	for k, i := range at {
		if i < len(us) && us[i] != 0 {
			texts[k] = units.ShowSpread(steady(xs[i]), steady(us[i]), units.MustParse("1"))
		}
	}
	return texts
}

func column(name, unit string) report.Column {
	return report.Column{Head: named(name, unit), Number: true}
}

// A numbered is a series with the unit of its panel.
type numbered struct {
	report.Series
	unit string
}

func alike(c report.Chart) (groups [][]numbered) {
	for _, panel := range c.Panels {
		for _, s := range panel.Series {
			one := numbered{s, panel.Unit}
			at := slices.IndexFunc(groups, func(g []numbered) bool { return slices.Equal(g[0].X, s.X) })
			if at < 0 {
				groups = append(groups, []numbered{one})
			} else {
				groups[at] = append(groups[at], one)
			}
		}
	}
	return groups
}
