package check

import (
	"regexp"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

var (
	// commaNumber is a number as half of the world writes it.
	commaNumber = regexp.MustCompile(`^[-+]?[0-9]+,[0-9]+(?:[eE][-+]?[0-9]+)?$`)
	// thousands is one that may as well be a whole number with its thousands set
	// apart.
	thousands = regexp.MustCompile(`^[-+]?[1-9][0-9]{0,2},[0-9]{3}$`)
	// partedByPoints is the same with points.
	partedByPoints = regexp.MustCompile(`^[-+]?[1-9][0-9]{0,2}(?:\.[0-9]{3})+$`)
)

// commas finds the number columns that are written with decimal commas. Only a
// file whose cells do not stand between commas can have them, and only a column
// that can be read in no other way is: no point stands in it, every comma is that
// of one number, and not all of those may be thousands.
func (r *reader) commas(t *syntax.Table) {
	r.comma = make([]bool, len(r.columns))
	if !t.Commas {
		return
	}
	for i, c := range r.columns {
		if _, isNumber := c.Type.(program.Quantity); isNumber {
			r.comma[i] = isCommaColumn(columnTexts(t, i))
		}
	}
	r.points(t)
}

// points refuses, in a file with decimal commas, a column whose points may part
// thousands: 1.000 beside 2,52 is a thousand or one, and is not guessed at.
func (r *reader) points(t *syntax.Table) {
	if !slices.Contains(r.comma, true) {
		return
	}
	for i, c := range r.columns {
		if _, isNumber := c.Type.(program.Quantity); !isNumber || slices.ContainsFunc(columnTexts(t, i), isDecimalPoint) {
			continue
		}
		parted := func(row []syntax.Cell) bool { return partedByPoints.MatchString(strings.TrimSpace(row[i].Text)) }
		if row := slices.IndexFunc(t.Rows, parted); row >= 0 {
			cell := t.Rows[row][i]
			text := strings.TrimSpace(cell.Text)
			r.fail(cell.Span, message.Quote(text)+" may be "+strings.ReplaceAll(text, ".", "")+" or "+strings.Replace(text, ".", ",", 1)+": this file has decimal commas",
				"write the column without points, or with decimal commas")
		}
	}
}

// isDecimalPoint reports whether the point of a number cannot part thousands.
func isDecimalPoint(text string) bool {
	return strings.Contains(text, ".") && !partedByPoints.MatchString(text)
}

// columnTexts is what stands in a column. Without headings the first row is data
// too, if it looks like it.
func columnTexts(t *syntax.Table, column int) []string {
	var texts []string
	if t.Columns != nil && commaNumber.MatchString(strings.TrimSpace(t.Head[column].Text)) {
		texts = append(texts, strings.TrimSpace(t.Head[column].Text))
	}
	for _, row := range t.Rows {
		texts = append(texts, strings.TrimSpace(row[column].Text))
	}
	return texts
}

func isCommaColumn(texts []string) bool {
	clear := false
	for _, text := range texts {
		switch {
		case strings.Contains(text, "."):
			return false
		case !strings.Contains(text, ","):
			continue
		case !commaNumber.MatchString(text):
			return false
		}
		clear = clear || !thousands.MatchString(text)
	}
	return clear
}

// point is a cell's text with a decimal point where its column has commas.
func (r *reader) point(column int, text string) string {
	if r.comma[column] {
		return strings.Replace(text, ",", ".", 1)
	}
	return text
}
