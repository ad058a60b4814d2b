package chart

import (
	"strings"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
)

// family is what a viewer sets the texts in: the first two have the widths that
// are measured here.
const family = "Liberation Sans, Arial, Helvetica, sans-serif"

// How much wider another face may be, such as DejaVu Sans, which many systems
// have in place of these.
const (
	slack     = 1.2
	boldSlack = 1.32
)

// Sizes of texts, in units of the page.
const (
	titleSize = 16
	nameSize  = 13
	tickSize  = 12
)

// measure knows how wide texts are. The faces are read for each chart, so that
// a run without one spends nothing on them.
type measure struct{ regular, bold font.Face }

func newMeasure() measure {
	return measure{face(liberationsansregular.TTF), face(liberationsansbold.TTF)}
}

func face(ttf []byte) font.Face {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic("chart: the face that is built in cannot be read: " + err.Error())
	}
	return font.Face{Font: font.Font{Typeface: "Liberation", Variant: "Sans"}, Face: f}
}

func (m measure) width(text string, size float64, bold bool) float64 {
	f, wider := m.regular, slack
	if bold {
		f, wider = m.bold, boldSlack
	}
	f.Font.Size = font.Length(size)
	return float64(f.Width(text)) * wider
}

// cut is a text that fits a width, its end left out where it must be.
func (m measure) cut(text string, size, width float64) string {
	if m.width(text, size, false) <= width {
		return text
	}
	runes := []rune(text)
	for len(runes) > 1 && m.width(string(runes)+"…", size, false) > width {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…"
}

// wrap is a title in lines of at most a width; a word wider than that is cut.
func (m measure) wrap(text string, size, width float64) (lines []string) {
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case m.width(line+" "+word, size, true) <= width:
			line += " " + word
		default:
			lines = append(lines, m.cut(line, size, width))
			line = word
		}
	}
	return append(lines, m.cut(line, size, width))
}
