package chart

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// Measures of a page, in its units.
const (
	margin      = 16
	titleLine   = 22
	tallPanel   = 190 // of the data, where there are one or two panels
	lowPanel    = 130 // where there are more
	aboveData   = 32  // for the panel's name
	belowData   = 10
	belowLast   = 46 // for the numbers and the name of the shared axis
	legendLine  = 19
	legendGap   = 18
	swatchWidth = 34
	legendMost  = 230
)

// ySteps is how many steps between ticks an axis upwards has.
const ySteps = 5

// A form is how wide a chart is, with how many steps along its axis, and whether the
// legend stands beside the data or above it.
type form struct {
	width    float64
	steps    int
	isNarrow bool
}

var (
	wide   = form{width: 720, steps: 7}
	narrow = form{width: 360, steps: 5, isNarrow: true} // as a telephone held upright
)

// A page is a chart laid out.
type page struct {
	form
	svg         *canvas
	height      float64
	title       []string
	xName       string
	x           scale
	xTicks      []tick
	left, right float64 // of the data
	panels      []*panel
}

// A panel is a chart's panel laid out, from top to bottom.
type panel struct {
	report.Panel
	name        string
	bars        bool
	top, bottom float64 // of the data
	legendTop   float64
	y           scale
	yTicks      []tick
	entries     []entry
}

// usual is about how many bytes a drawing has.
const usual = 12 << 10

// layOut finds the place of everything.
func layOut(c report.Chart, f form) *page {
	p := &page{form: f}
	p.title = wrap(clean(c.Title), titleSize, p.width-2*margin)
	p.xName = named(c.X.Name, c.X.Unit)
	x := xReach(c.Panels)
	p.xTicks = x.ticks(p.steps)
	if isCount(c) {
		p.xTicks = slices.DeleteFunc(p.xTicks, func(t tick) bool { return t.value != math.Trunc(t.value) })
	}
	if len(c.Labels) > 0 {
		p.xName, x = message.Words(clean(c.X.Name)), reach{0.5, float64(len(c.Labels)) + 0.5, true}
	}
	top := margin + float64(len(p.title)*titleLine)
	for _, one := range c.Panels {
		n := newPanel(one, c.Bars)
		n.top = top + aboveData
		n.legendTop = n.top
		beside := float64(len(n.entries) * legendLine)
		if p.isNarrow {
			n.legendTop -= 8
			n.top, beside = n.top+beside, 0
		}
		n.bottom = n.top + max(dataHeight(len(c.Panels)), beside)
		n.y.from, n.y.to = n.bottom, n.top
		top = n.bottom + belowData
		p.panels = append(p.panels, n)
	}
	p.height = top - belowData + belowLast
	p.sides()
	p.x = scale{x.low, x.high, p.left, p.right}
	if len(c.Labels) > 0 {
		p.xTicks = p.named(c.Labels)
	}
	for p.touch() {
		p.xTicks = slices.DeleteFunc(p.xTicks, everySecond[tick]())
	}
	p.svg = &canvas{height: p.height, out: make([]byte, 0, usual)}
	return p
}

// touch reports whether labels along the axis leave no gap between them.
func (p *page) touch() bool {
	const gap = 4
	end := math.Inf(-1)
	for _, t := range p.xTicks {
		half := width(t.label, tickSize, false) / 2
		if at := p.x.at(t.value); t.label != "" {
			if at-half < end+gap {
				return true
			}
			end = at + half
		}
	}
	return false
}

// everySecond reports, of what it is asked in turn, each second one.
func everySecond[T any]() func(T) bool {
	n := 0
	return func(T) bool { n++; return n%2 == 0 }
}

// leastLabel is the room that a label wants before every second one is left out.
const leastLabel = 44

// named are ticks with texts, cut to the room that each has. Where that is too
// little, only some have theirs.
func (p *page) named(labels []string) (list []tick) {
	slot := (p.right - p.left) / float64(len(labels))
	step := 1
	for slot*float64(step) < leastLabel {
		step++
	}
	for i, text := range labels {
		if i%step != 0 {
			text = ""
		}
		list = append(list, tick{float64(i + 1), cut(clean(text), tickSize, slot*float64(step)-6)})
	}
	return list
}

func dataHeight(panels int) float64 {
	if panels > 2 {
		return lowPanel
	}
	return tallPanel
}

// sides leaves room for the numbers at the left and the legend at the right.
func (p *page) sides() {
	numbers, legend := 0.0, 0.0
	for _, n := range p.panels {
		for _, t := range n.yTicks {
			numbers = max(numbers, width(t.label, tickSize, false))
		}
		for i := range n.entries {
			e := &n.entries[i]
			e.text = cut(e.text, nameSize, min(legendMost, p.width-2*margin-swatchWidth))
			if !p.isNarrow {
				legend = max(legend, legendGap+swatchWidth+width(e.text, nameSize, false))
			}
		}
	}
	p.left = margin + numbers + 8
	p.right = p.width - margin - max(legend, 8)
}

// newPanel finds a panel's axis and legend.
func newPanel(one report.Panel, bars bool) *panel {
	n := &panel{Panel: one, name: named(one.Name, one.Unit), bars: bars}
	y := yReach(one)
	if bars {
		y.add(0) // a bar is as long as its number
	}
	y = y.opened().rounded(ySteps)
	n.yTicks = y.ticks(ySteps)
	n.y.low, n.y.high = y.low, y.high
	n.entries = entriesOf(one, y)
	for i := range n.entries {
		n.entries[i].bar = bars && n.entries[i].series >= 0
	}
	return n
}

// isCount reports whether a chart's axis counts: between its numbers there is none.
func isCount(c report.Chart) bool {
	for _, p := range c.Panels {
		for _, s := range p.Series {
			if slices.ContainsFunc(s.X, func(x float64) bool { return x != math.Trunc(x) }) {
				return false
			}
		}
	}
	return c.X.Unit == "" || c.X.Unit == "1"
}

// named is an axis: name [unit], the name alone for a pure number.
func named(name, unit string) string {
	name = message.Words(clean(name))
	if unit == "" || unit == "1" {
		return name
	}
	return name + " [" + unit + "]"
}

// pointMargin is the part of its reach that an axis with measured points has
// beyond them, so that none is cut.
const pointMargin = 0.02

func xReach(panels []report.Panel) reach {
	var r reach
	points := false
	for _, p := range panels {
		for _, s := range p.Series {
			points = points || s.Points
			for _, v := range s.X {
				r.add(v)
			}
		}
	}
	r = r.opened()
	if pad := pointMargin * (r.high - r.low); points {
		r = reach{r.low - pad, r.high + pad, true}
	}
	return r
}

// farRule is how many times the data's own height an axis may grow to show a
// limit: past that, the data would be a line along the edge.
const farRule = 2.5

// yReach is what a panel shows: its numbers with their intervals, and the
// limits that are not far off.
func yReach(p report.Panel) reach {
	var r reach
	for _, s := range p.Series {
		for i, v := range s.Y {
			r.add(v)
			if i < len(s.U) {
				r.add(v - s.U[i])
				r.add(v + s.U[i])
			}
		}
	}
	data := r.opened()
	r = data
	for _, rule := range p.Rules {
		with := r
		with.add(rule.At)
		if with.high-with.low <= farRule*max(data.high-data.low, nearZero*max(-data.low, data.high)) {
			r = with
		}
	}
	return r
}

// plot is gonum's canvas over ours.
func (p *page) plot() draw.Canvas {
	return draw.NewCanvas(p.svg, vg.Length(p.width), vg.Length(p.height))
}

// point is a place counted from the top as gonum counts it.
func (p *page) point(x, y float64) vg.Point {
	return vg.Point{X: vg.Length(x), Y: vg.Length(p.height - y)}
}
