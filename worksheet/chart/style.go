package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/units"
)

// palette can be told apart by colour-blind readers: blue, vermilion, bluish
// green, reddish purple, orange and black of M. Okabe and K. Ito, Color
// Universal Design (2008), as printed by B. Wong, Nature Methods 8 (2011) 441;
// from memory.
var palette = []color.NRGBA{
	{0x00, 0x72, 0xb2, 0xff},
	{0xd5, 0x5e, 0x00, 0xff},
	{0x00, 0x9e, 0x73, 0xff},
	{0xcc, 0x79, 0xa7, 0xff},
	{0xe6, 0x9f, 0x00, 0xff},
	{0x00, 0x00, 0x00, 0xff},
}

// dashes tell lines apart without colour.
var dashes = [][]vg.Length{nil, {11, 3}, {2, 2.5}, {9, 3, 2, 3}, {5, 2}, {12, 3, 2, 3, 2, 3}, {1.5, 5}}

// shapes tell points apart without colour.
var shapes = []draw.GlyphDrawer{draw.CircleGlyph{}, draw.BoxGlyph{}, draw.PyramidGlyph{}, draw.RingGlyph{}, draw.CrossGlyph{}, draw.SquareGlyph{}, draw.TriangleGlyph{}}

var (
	gridColor = color.NRGBA{0xe4, 0xe4, 0xe4, 0xff}
	axisColor = color.NRGBA{0x66, 0x66, 0x66, 0xff}
	ruleColor = color.NRGBA{0x55, 0x55, 0x55, 0xff}
)

// bandAlpha lets the grid and other bands show through.
const bandAlpha = 0x38

func lineStyle(i int) draw.LineStyle {
	return draw.LineStyle{Color: palette[i%len(palette)], Width: 2, Dashes: dashes[i%len(dashes)]}
}

func glyphStyle(i int) draw.GlyphStyle {
	return draw.GlyphStyle{Color: palette[i%len(palette)], Radius: 3, Shape: shapes[i%len(shapes)]}
}

func ruleStyle() draw.LineStyle {
	return draw.LineStyle{Color: ruleColor, Width: 1.2, Dashes: []vg.Length{6, 4}}
}

func bandColor(i int) color.NRGBA {
	k := palette[i%len(palette)]
	k.A = bandAlpha
	return k
}

// An entry is a line of the legend.
type entry struct {
	text   string
	series int // -1 for a limit
	points bool
	bar    bool
	hidden bool // off the scale, so without a swatch
}

// entriesOf is a panel's legend; none where the panel's name says it all.
func entriesOf(p report.Panel, y reach) (list []entry) {
	if len(p.Series) > 1 || len(p.Rules) > 0 {
		for i, s := range p.Series {
			list = append(list, entry{text: message.Words(clean(s.Name)), series: i, points: s.Points})
		}
	}
	for _, r := range p.Rules {
		off := r.At < y.low || r.At > y.high
		list = append(list, entry{text: ruleText(r, p.Unit, off), series: -1, hidden: off})
	}
	return list
}

// ruleText is a limit with its number, once where the number is all it says.
func ruleText(r report.Rule, unit string, off bool) string {
	at := units.Number(r.At, 4)
	if unit != "" {
		at += " " + unit
	}
	text := "limit " + at
	if name := message.Words(clean(r.Name)); name != at {
		text = name + ": " + at
	}
	if off {
		text += " (off the scale)"
	}
	return text
}
