package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"inkwing/evaluate/report"
)

// draw puts a panel on the page, from the back to the front.
func (n *panel) draw(p *page) {
	c := p.plot()
	n.grid(p, &c)
	for i, s := range n.Series {
		if n.bars {
			n.bar(p, &c, i, s)
		} else {
			n.band(p, &c, i, s)
		}
	}
	for _, r := range n.Rules {
		if r.At >= n.y.low && r.At <= n.y.high {
			at := n.y.at(r.At)
			c.StrokeLines(ruleStyle(), []vg.Point{p.point(p.left, at), p.point(p.right, at)})
		}
	}
	for i, s := range n.Series {
		if !n.bars {
			n.series(p, &c, i, s)
		}
	}
	n.labels(p)
	n.legend(p, &c)
}

// grid draws the ticks' lines and the two axes.
func (n *panel) grid(p *page, c *draw.Canvas) {
	thin := draw.LineStyle{Color: gridColor, Width: 1}
	for _, t := range n.yTicks {
		at := n.y.at(t.value)
		c.StrokeLines(thin, []vg.Point{p.point(p.left, at), p.point(p.right, at)})
	}
	for _, t := range p.xTicks {
		if n.bars {
			break // a bar stands there
		}
		at := p.x.at(t.value)
		c.StrokeLines(thin, []vg.Point{p.point(at, n.top), p.point(at, n.bottom)})
	}
	c.StrokeLines(draw.LineStyle{Color: axisColor, Width: 1},
		[]vg.Point{p.point(p.left, n.top), p.point(p.left, n.bottom), p.point(p.right, n.bottom)})
}

// series draws a model as a line and measurements as points; a line of a single
// point is that point.
func (n *panel) series(p *page, c *draw.Canvas, i int, s report.Series) {
	at := n.places(p, s.X, s.Y)
	if !s.Points && len(at) > 1 {
		c.StrokeLines(lineStyle(i), p.points(thinLine(at)))
		return
	}
	for _, pt := range p.points(thinPoints(at)) {
		c.DrawGlyphNoClip(glyphStyle(i), pt)
	}
}

// A place is a point of the page, counted from the top.
type place struct{ x, y float64 }

// places maps numbers to the page; what cannot be drawn is left out.
func (n *panel) places(p *page, xs, ys []float64) []place {
	list := make([]place, 0, len(xs))
	for i := range min(len(xs), len(ys)) {
		if drawable(xs[i]) && drawable(ys[i]) {
			list = append(list, place{p.x.at(xs[i]), n.y.at(ys[i])})
		}
	}
	return list
}

func (p *page) points(list []place) []vg.Point {
	out := make([]vg.Point, len(list))
	for i, at := range list {
		out[i] = p.point(at.x, at.y)
	}
	return out
}

// band draws the interval of each number: an area along a line that goes from
// left to right, else bars.
func (n *panel) band(p *page, c *draw.Canvas, i int, s report.Series) {
	if len(s.U) == 0 {
		return
	}
	low, high := make([]float64, len(s.U)), make([]float64, len(s.U))
	rising := true
	for k := range min(len(s.U), len(s.X), len(s.Y)) {
		low[k], high[k] = s.Y[k]-s.U[k], s.Y[k]+s.U[k]
		rising = rising && (k == 0 || s.X[k] >= s.X[k-1])
	}
	below, above := n.places(p, s.X, low), n.places(p, s.X, high)
	if s.Points || !rising || len(below) < 2 || len(below) != len(above) {
		n.strokes(p, c, i, below, above)
		return
	}
	edge := p.points(thinLine(below))
	back := p.points(thinLine(above))
	for k := len(back) - 1; k >= 0; k-- {
		edge = append(edge, back[k])
	}
	c.FillPolygon(bandColor(i), edge)
}

func (n *panel) strokes(p *page, c *draw.Canvas, i int, below, above []place) {
	style := draw.LineStyle{Color: palette[i%len(palette)], Width: 1}
	for k := range min(len(below), len(above)) {
		c.StrokeLines(style, p.points([]place{below[k], above[k]}))
	}
}

// labels writes the panel's name and the numbers of its axis.
func (n *panel) labels(p *page) {
	room := p.width - 2*margin
	p.svg.text(label{text: cut(n.name, nameSize, room), x: margin, y: n.nameAt(), size: nameSize, anchor: "start"})
	for _, t := range n.yTicks {
		p.svg.text(label{text: t.label, x: p.left - 6, y: n.y.at(t.value) + 4, size: tickSize, anchor: "end", grey: true})
	}
}

// nameAt is the line of the panel's name, above the data and what stands there.
func (n *panel) nameAt() float64 { return min(n.top, n.legendTop+8) - 13 }

// legend writes what is what beside the data, or above it.
func (n *panel) legend(p *page, c *draw.Canvas) {
	x := p.right + legendGap
	if p.isNarrow {
		x = margin
	}
	for k, e := range n.entries {
		y := n.legendTop + float64(k)*legendLine + legendLine/2
		mid := []vg.Point{p.point(x, y), p.point(x+swatchWidth-8, y)}
		switch {
		case e.hidden:
		case e.series < 0:
			c.StrokeLines(ruleStyle(), mid)
		case e.bar:
			box(c, e.series, []vg.Point{p.point(x, y-5), p.point(x+swatchWidth-8, y-5), p.point(x+swatchWidth-8, y+5), p.point(x, y+5)})
		case e.points:
			c.DrawGlyphNoClip(glyphStyle(e.series), p.point(x+swatchWidth/2-4, y))
		default:
			c.StrokeLines(lineStyle(e.series), mid)
		}
		p.svg.text(label{text: e.text, x: x + swatchWidth, y: y + 4.5, size: nameSize, anchor: "start"})
	}
}

// frame writes the title and the shared axis.
func (p *page) frame() {
	for i, line := range p.title {
		p.svg.text(label{text: line, x: margin, y: margin + float64(i*titleLine) + titleSize, size: titleSize, anchor: "start", bold: true})
	}
	bottom := p.height - belowLast
	for _, t := range p.xTicks {
		p.svg.text(label{text: t.label, x: p.x.at(t.value), y: bottom + 17, size: tickSize, anchor: "middle", grey: true})
	}
	name := cut(p.xName, nameSize, p.width-2*margin)
	p.svg.text(label{text: name, x: p.right, y: bottom + 36, size: nameSize, anchor: "end"})
}
