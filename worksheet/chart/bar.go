package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"inkwing/evaluate/report"
)

// barShare is the part of a name's room that its bars take.
const barShare = 0.7

// whisker is half the width of the stroke at the ends of an interval.
const whisker = 4

// bar draws a bar at each name, as long as its number, with its interval as a
// whisker. Those of several series stand side by side.
func (n *panel) bar(p *page, c *draw.Canvas, i int, s report.Series) {
	width := barShare * (p.x.at(2) - p.x.at(1)) / float64(len(n.Series))
	shift := (float64(i) - float64(len(n.Series)-1)/2) * width
	base := n.y.at(min(max(0, n.y.low), n.y.high))
	c.StrokeLines(draw.LineStyle{Color: axisColor, Width: 1}, p.points([]place{{p.left, base}, {p.right, base}}))
	for k := range min(len(s.X), len(s.Y)) {
		if !drawable(s.Y[k]) {
			continue
		}
		mid, top := p.x.at(s.X[k])+shift, n.y.at(s.Y[k])
		box(c, i, p.points([]place{{mid - width/2, base}, {mid - width/2, top}, {mid + width/2, top}, {mid + width/2, base}}))
		if k < len(s.U) && s.U[k] > 0 && drawable(s.U[k]) {
			n.whisker(p, c, mid, n.y.at(s.Y[k]-s.U[k]), n.y.at(s.Y[k]+s.U[k]))
		}
	}
}

// whisker is an interval, with a stroke at both of its ends.
func (n *panel) whisker(p *page, c *draw.Canvas, x, low, high float64) {
	style := draw.LineStyle{Color: axisColor, Width: 1.4}
	for _, line := range [][]place{{{x, low}, {x, high}}, {{x - whisker, low}, {x + whisker, low}}, {{x - whisker, high}, {x + whisker, high}}} {
		c.StrokeLines(style, p.points(line))
	}
}

// box is a bar in the colour of its series, its edge in the series' dashes.
func box(c *draw.Canvas, series int, corners []vg.Point) {
	c.FillPolygon(bandColor(series), corners)
	c.StrokeLines(lineStyle(series), append(corners[:len(corners):len(corners)], corners[0]))
}
