package chart

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// canvas takes what gonum/plot draws and writes it as SVG elements. Neighbours
// that look alike are one element, which keeps files small. It turns and scales
// nothing: the page has no need of it.
type canvas struct {
	height float64
	out    strings.Builder
	head   string // of the path that is open; empty for none
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
	head := `<path fill="none" stroke-linejoin="round" ` + paint("stroke", c.state.color) + ` stroke-width="` + decimal(float64(c.state.width)) + `"`
	if len(c.state.dash) > 0 {
		var parts []string
		for _, d := range c.state.dash {
			parts = append(parts, decimal(float64(d)))
		}
		head += ` stroke-dasharray="` + strings.Join(parts, " ") + `"`
	}
	c.path(head, p)
}

// Fill fills a path.
func (c *canvas) Fill(p vg.Path) { c.path("<path "+paint("fill", c.state.color), p) }

// FillString writes a text that begins at a point.
func (c *canvas) FillString(f font.Face, pt vg.Point, text string) {
	c.text(label{text: text, x: float64(pt.X), y: c.height - float64(pt.Y), size: float64(f.Font.Size), anchor: "start"})
}

// path opens an element with a head, or goes on with the open one.
func (c *canvas) path(head string, p vg.Path) {
	if head != c.head {
		c.end()
		c.out.WriteString(head + ` d="`)
		c.head = head
	}
	for _, part := range p {
		c.part(part)
	}
}

func (c *canvas) end() {
	if c.head != "" {
		c.out.WriteString("\"/>\n")
		c.head = ""
	}
}

func (c *canvas) part(p vg.PathComp) {
	switch p.Type {
	case vg.MoveComp:
		c.out.WriteString("M" + c.at(p.Pos))
	case vg.LineComp:
		c.out.WriteString("L" + c.at(p.Pos))
	case vg.ArcComp:
		c.circle(p)
	case vg.CloseComp:
		c.out.WriteString("Z")
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
	c.out.WriteString("M" + c.at(left) + half + c.at(right) + half + c.at(left))
}

func (c *canvas) at(p vg.Point) string {
	return decimal(float64(p.X)) + " " + decimal(c.height-float64(p.Y))
}

// raw puts a ready element in.
func (c *canvas) raw(element string) {
	c.end()
	c.out.WriteString(element)
}

// elements is all that was drawn.
func (c *canvas) elements() string {
	c.end()
	return c.out.String()
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
	fmt.Fprintf(&c.out, `<text x="%s" y="%s" font-size="%s"%s text-anchor="%s" fill="%s">%s</text>`+"\n",
		decimal(l.x), decimal(l.y), decimal(l.size), weight, l.anchor, fill, escape(l.text))
}

// paint is a colour as attributes; one that lets through says how much.
func paint(what string, k color.Color) string {
	n := color.NRGBAModel.Convert(k).(color.NRGBA)
	text := fmt.Sprintf(`%s="#%02x%02x%02x"`, what, n.R, n.G, n.B)
	if n.A != 0xff {
		text += fmt.Sprintf(` %s-opacity="%s"`, what, strconv.FormatFloat(math.Round(float64(n.A)/255*100)/100, 'f', -1, 64))
	}
	return text
}

// decimal is a coordinate to a tenth, which hides what machines round
// differently.
func decimal(v float64) string {
	// In two steps: what should stand on a border between two tenths stands a last bit
	// beside it, on one side or the other as the processor has it.
	v = math.Round(math.Round(v*1e6)/1e5) / 10
	if v == 0 {
		v = 0 // no -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
