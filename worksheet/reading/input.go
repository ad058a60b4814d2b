package reading

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
)

// An Input is something within a reader's reach: a value that can be changed.
type Input struct {
	Name string `json:"name"` // by which a change calls it
	Text string `json:"text"` // as typed: what Before, Number and After say together
	// Number is the part that a field holds, empty where the value is not a number;
	// Before and After are what stands around it: a sign of money, the unit, the
	// interval.
	Number string  `json:"number,omitempty"`
	Before string  `json:"before,omitempty"`
	After  string  `json:"after,omitempty"`
	Places int     `json:"places,omitempty"` // decimals to write it with
	Step   float64 `json:"step,omitempty"`   // of an arrow
	Low    float64 `json:"low,omitempty"`    // of the slider
	High   float64 `json:"high,omitempty"`
	// Choices are what a value that is no number can be, where that is known.
	Choices []string `json:"choices,omitempty"`

	at message.Span
}

// inputs are the values within reach, in the order of the page.
func inputs(doc *markdown.Document) []Input {
	list := []Input{}
	tree, _ := syntax.Parse(doc.Name, doc.Sheet().Blocks)
	for _, s := range tree.Statements {
		d, ok := s.(*syntax.Definition)
		if !ok || !isInput(d.Value) {
			continue
		}
		if in, ok := input(doc.Source, d.Name.Name, d.Value); ok {
			list = append(list, in)
		}
	}
	return list
}

// isInput reports whether a value stands there by itself; an element of a list is
// worked from it.
func isInput(x syntax.Expr) bool {
	if i, ok := x.(*syntax.Index); ok && !syntax.IsText(i.Key) {
		return false
	}
	return syntax.Plain(x)
}

// input is a value as it was typed; false for one on several lines.
func input(source []byte, name string, x syntax.Expr) (Input, bool) {
	at := x.Place()
	if at.Start < 0 || at.End > len(source) || at.Start >= at.End {
		return Input{}, false
	}
	in := Input{Name: name, Text: string(source[at.Start:at.End]), at: at}
	if strings.ContainsAny(in.Text, "\r\n") {
		return Input{}, false
	}
	if n := number(x); n != nil {
		in.split(n.Digits.Start-at.Start, n.Digits.End-at.Start, n)
	}
	if _, ok := x.(*syntax.Truth); ok {
		in.Choices = []string{"true", "false"}
	}
	return in, true
}

// number is the one that a value is about.
func number(x syntax.Expr) *syntax.Number {
	switch x := x.(type) {
	case *syntax.Number:
		return x
	case *syntax.Uncertain:
		return number(x.Value)
	case *syntax.Paren:
		return number(x.X)
	}
	return nil
}

// mantissa is what of a number arrows and sliders change: its power of ten stays.
var mantissa = regexp.MustCompile(`^[0-9_]*(?:\.([0-9_]*))?`)

// split parts a value into its number and what stands around.
func (in *Input) split(from, to int, n *syntax.Number) {
	if from < 0 || to > len(in.Text) || from >= to {
		return
	}
	if in.Text[from] == '-' {
		from++
	}
	digits := mantissa.FindStringSubmatch(in.Text[from:to])
	if digits == nil || digits[0] == "" {
		return
	}
	to = from + len(digits[0])
	if from > 0 && in.Text[from-1] == '-' {
		from--
	}
	value, err := strconv.ParseFloat(strings.ReplaceAll(in.Text[from:to], "_", ""), 64)
	if err != nil {
		return
	}
	in.Before, in.Number, in.After = in.Text[:from], in.Text[from:to], in.Text[to:]
	in.Places = len(strings.ReplaceAll(digits[1], "_", ""))
	in.span(value, n.Unit)
}

// fewSteps is how many steps a slider has at least, where its number is no count.
const fewSteps = 20

// span is a sensible span around a value: half of it to either side, and a part
// stays a part of the whole.
func (in *Input) span(value float64, unit *syntax.Unit) {
	in.Step = math.Pow10(-in.Places)
	half := math.Abs(value) / 2
	if count := unit == nil && in.Places == 0; count {
		half = max(math.Ceil(half), 2)
	} else if half == 0 {
		half = fewSteps / 2 * in.Step
	} else if 2*half/in.Step < fewSteps {
		in.Places++
		in.Step /= 10
	}
	in.Low, in.High = in.snap(value-half), in.snap(value+half)
	if unit == nil && in.Places == 0 && value > 0 {
		in.Low = max(in.Low, 1)
	}
	if unit != nil && unit.Text == "%" && value >= 0 && value <= 100 {
		in.Low, in.High = max(in.Low, 0), min(in.High, 100)
	}
}

// snap puts an end of the slider on a step.
func (in *Input) snap(x float64) float64 {
	snapped, _ := strconv.ParseFloat(strconv.FormatFloat(math.Round(x/in.Step)*in.Step, 'f', in.Places, 64), 64)
	return snapped
}
