package chart

import "strings"

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

// unitsPerEm is in what the widths of a face are told.
const unitsPerEm = 2048

// A face is how wide its characters are: widths_gen.go has those of two, so that
// the faces themselves, which are much larger, need not be built in.
type face struct {
	missing uint16 // of a character that it does not have
	runs    []run
	kern    map[[2]rune]int // what two neighbours stand closer, or further apart
}

// A run is the widths of characters that follow one another.
type run struct {
	first  rune
	widths []uint16
}

// width is how wide a text is, in units of the face.
func (f *face) width(text string) (sum int) {
	var before rune
	for i, r := range text {
		if i == 0 {
			sum = f.advance(r)
		} else {
			sum += f.behind(before, r)
		}
		before = r
	}
	return sum
}

// behind is how much wider a text becomes by one more character.
func (f *face) behind(before, r rune) int { return f.kern[[2]rune{before, r}] + f.advance(r) }

func (f *face) advance(r rune) int {
	for _, run := range f.runs {
		if i := int(r - run.first); i >= 0 && i < len(run.widths) {
			return int(run.widths[i])
		}
	}
	return int(f.missing)
}

// width is how wide a text may come out.
func width(text string, size float64, isBold bool) float64 {
	if isBold {
		return scaled(bold.width(text), size, boldSlack)
	}
	return scaled(regular.width(text), size, slack)
}

func scaled(ems int, size, wider float64) float64 {
	return float64(ems) * (size / unitsPerEm) * wider
}

// cut is a text that fits a width, its end left out where it must be.
func cut(text string, size, room float64) string {
	if width(text, size, false) <= room {
		return text
	}
	runes := []rune(text)
	wide := make([]int, len(runes)+1) // what stands before each
	for i, r := range runes {
		if i == 0 {
			wide[1] = regular.advance(r)
		} else {
			wide[i+1] = wide[i] + regular.behind(runes[i-1], r)
		}
	}
	n := len(runes)
	for n > 1 && scaled(wide[n]+regular.behind(runes[n-1], '…'), size, slack) > room {
		n--
	}
	return strings.TrimRight(string(runes[:n]), " ") + "…"
}

// wrap is a title in lines of at most a width; a word wider than that is cut.
func wrap(text string, size, room float64) (lines []string) {
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case width(line+" "+word, size, true) <= room:
			line += " " + word
		default:
			lines = append(lines, cut(line, size, room))
			line = word
		}
	}
	return append(lines, cut(line, size, room))
}
