package chart

import (
	"bytes"
	"encoding/hex"
	"image"
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// canvas takes what gonum/plot draws and writes it as SVG elements. Neighbours
// that look alike are one element, which keeps files small. It turns and scales
// nothing: the page has no need of it.
type canvas struct {
	height float64
	out    []byte
	head   []byte // of the path that is open; empty for none
	next   []byte // of the one that comes
	state  pen
	stack  []pen
}

type pen struct {
	width vg.Length
	dash  []vg.Length
	color color.Color
}

var _ vg.Canvas = (*canvas)(nil)

// SetLineWidth sets the width of strokes.
func (c *canvas) SetLineWidth(w vg.Length) { c.state.width = w }

// SetLineDash sets the dashes of strokes; their offset is always 0.
func (c *canvas) SetLineDash(pattern []vg.Length, _ vg.Length) { c.state.dash = pattern }

// SetColor sets the colour of strokes and fills.
func (c *canvas) SetColor(k color.Color) { c.state.color = k }

// Rotate is not needed by what is drawn here.
func (c *canvas) Rotate(float64) { panic("chart: nothing is turned") }

// Translate is not needed by what is drawn here.
func (c *canvas) Translate(vg.Point) { panic("chart: nothing is moved") }

// Scale is not needed by what is drawn here.
func (c *canvas) Scale(float64, float64) { panic("chart: nothing is scaled") }

// DrawImage is not needed by what is drawn here.
func (c *canvas) DrawImage(vg.Rectangle, image.Image) { panic("chart: there are no images") }

// Push keeps the pen.
func (c *canvas) Push() { c.stack = append(c.stack, c.state) }

// Pop takes up the pen that was kept last.
func (c *canvas) Pop() {
	c.state = c.stack[len(c.stack)-1]
	c.stack = c.stack[:len(c.stack)-1]
}

// Stroke draws along a path.
func (c *canvas) Stroke(p vg.Path) {
	if c.state.width <= 0 {
		return
	}
	c.next = appendPaint(append(c.next[:0], `<path fill="none" stroke-linejoin="round" `...), "stroke", c.state.color)
	c.next = append(appendDecimal(append(c.next, ` stroke-width="`...), float64(c.state.width)), '"')
	for i, d := range c.state.dash {
		before := " "
		if i == 0 {
			before = ` stroke-dasharray="`
		}
		c.next = appendDecimal(append(c.next, before...), float64(d))
	}
	if len(c.state.dash) > 0 {
		c.next = append(c.next, '"')
	}
	c.path(p)
}

// Fill fills a path.
func (c *canvas) Fill(p vg.Path) {
	c.next = appendPaint(append(c.next[:0], "<path "...), "fill", c.state.color)
	c.path(p)
}

// FillString writes a text that begins at a point.
func (c *canvas) FillString(f font.Face, pt vg.Point, text string) {
	c.text(label{text: text, x: float64(pt.X), y: c.height - float64(pt.Y), size: float64(f.Font.Size), anchor: "start"})
}

// path opens an element with the next head, or goes on with the open one.
func (c *canvas) path(p vg.Path) {
	if !bytes.Equal(c.next, c.head) {
		c.end()
		c.put(string(c.next), ` d="`)
		c.head = append(c.head, c.next...)
	}
	for _, part := range p {
		c.part(part)
	}
}

func (c *canvas) end() {
	if len(c.head) > 0 {
		c.put("\"/>\n")
		c.head = c.head[:0]
	}
}

func (c *canvas) part(p vg.PathComp) {
	switch p.Type {
	case vg.MoveComp:
		c.at("M", p.Pos)
	case vg.LineComp:
		c.at("L", p.Pos)
	case vg.ArcComp:
		c.circle(p)
	case vg.CloseComp:
		c.put("Z")
	default:
		panic("chart: there are no curves")
	}
}

// circle is two half circles; the only arcs drawn are whole.
func (c *canvas) circle(p vg.PathComp) {
	r := decimal(float64(p.Radius))
	left, right := p.Pos, p.Pos
	left.X -= p.Radius
	right.X += p.Radius
	half := "A" + r + " " + r + " 0 0 1 "
	c.at("M", left)
	c.at(half, right)
	c.at(half, left)
}

// at puts in what leads to a point.
func (c *canvas) at(how string, p vg.Point) {
	c.out = appendDecimal(append(c.out, how...), float64(p.X))
	c.out = appendDecimal(append(c.out, ' '), c.height-float64(p.Y))
}

func (c *canvas) put(parts ...string) {
	for _, p := range parts {
		c.out = append(c.out, p...)
	}
}

// raw puts a ready element in, or a part of one.
func (c *canvas) raw(parts ...string) {
	c.end()
	c.put(parts...)
}

// elements is all that was drawn.
func (c *canvas) elements() []byte {
	c.end()
	return c.out
}

// label is a text on the page; y counts from the top, to the text's base line.
type label struct {
	text   string
	x, y   float64
	size   float64
	anchor string // start, middle, end
	bold   bool
	grey   bool
}

func (c *canvas) text(l label) {
	c.end()
	fill, weight := "#222222", ""
	if l.grey {
		fill = "#444444"
	}
	if l.bold {
		weight = ` font-weight="bold"`
	}
	c.put(`<text x="`, decimal(l.x), `" y="`, decimal(l.y), `" font-size="`, decimal(l.size), `"`, weight,
		` text-anchor="`, l.anchor, `" fill="`, fill, `">`, escape(l.text), "</text>\n")
}

// appendPaint appends a colour as attributes; one that lets through says how much.
func appendPaint(out []byte, what string, k color.Color) []byte {
	n := color.NRGBAModel.Convert(k).(color.NRGBA)
	out = append(append(out, what...), `="#`...)
	out = hex.AppendEncode(out, []byte{n.R, n.G, n.B})
	out = append(out, '"')
	if n.A == 0xff {
		return out
	}
	out = append(append(append(out, ' '), what...), `-opacity="`...)
	return append(strconv.AppendFloat(out, math.Round(float64(n.A)/255*100)/100, 'f', -1, 64), '"')
}

// decimal is a coordinate to a tenth, which hides what machines round
// differently.
func decimal(v float64) string {
	var room [24]byte
	return string(appendDecimal(room[:0], v))
}

func appendDecimal(out []byte, v float64) []byte {
	// In two steps: what should stand on a border between two tenths stands a last bit
	// beside it, on one side or the other as the processor has it.
	v = math.Round(math.Round(v*1e6)/1e5) / 10
	if v == 0 {
		v = 0 // no -0
	}
	return strconv.AppendFloat(out, v, 'f', -1, 64)
}
