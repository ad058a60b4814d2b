package reading

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
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
	File    string   `json:"file,omitempty"` // where it stands, if that is another file

	at message.Span
}

// inputs are the values within reach, in the order of the page, then those of the
// pages that it uses.
func inputs(doc *markdown.Document, within []report.Input) []Input {
	list := []Input{}
	for _, x := range within {
		in := Input{Name: x.Address, Text: x.Text, Choices: x.Choices, at: x.Span}
		if strings.ContainsAny(in.Text, "\r\n") {
			continue
		}
		if x.Path == doc.Name && string(doc.Source[x.Span.Start:x.Span.End]) != x.Text {
			in.at = message.Span{} // on several lines, or with Markdown inside
		}
		if _, ok := x.Value.(float64); ok && x.Digits.End > x.Digits.Start {
			in.split(x.Digits.Start-x.Span.Start, x.Digits.End-x.Span.Start)
		}
		if _, ok := x.Value.(bool); ok {
			in.Choices = []string{"true", "false"}
		}
		if in.choose(); x.Path != doc.Name {
			in.File = x.Path
		}
		list = append(list, in)
	}
	return list
}

// choose writes the choices as they would stand in the place of the text.
func (in *Input) choose() {
	before, after := "", ""
	switch row := strings.LastIndex(in.Text, `["`); {
	case in.Number != "":
		in.Choices = nil
	case row >= 0 && strings.HasSuffix(in.Text, `"]`):
		before, after = in.Text[:row]+`["`, `"]`
	case strings.HasPrefix(in.Text, `"`):
		before, after = `"`, `"`
	}
	var list []string
	for _, c := range in.Choices {
		if !strings.ContainsAny(c, "\"\\\r\n") {
			list = append(list, before+c+after)
		}
	}
	if len(list) > 0 && !slices.Contains(list, in.Text) {
		list = append([]string{in.Text}, list...)
	}
	in.Choices = list
}

// mantissa is what of a number arrows and sliders change: its power of ten stays.
var mantissa = regexp.MustCompile(`^[0-9_]*(?:\.([0-9_]*))?`)

// split parts a value into its number and what stands around.
func (in *Input) split(from, to int) {
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
	in.span(value, strings.TrimSpace(in.Before+in.After))
}

// fewSteps is how many steps a slider has at least, where its number is no count.
const fewSteps = 20

// span is a sensible span around a value: half of it to either side, and a part
// stays a part of the whole.
func (in *Input) span(value float64, unit string) {
	in.Step = math.Pow10(-in.Places)
	half := math.Abs(value) / 2
	if count := unit == "" && in.Places == 0; count {
		half = max(math.Ceil(half), 2)
	} else if half == 0 {
		half = fewSteps / 2 * in.Step
	} else if 2*half/in.Step < fewSteps {
		in.Places++
		in.Step /= 10
	}
	in.Low, in.High = in.snap(value-half), in.snap(value+half)
	if unit == "" && in.Places == 0 && value > 0 {
		in.Low = max(in.Low, 1)
	}
	if strings.HasPrefix(unit, "%") && value >= 0 && value <= 100 {
		in.Low, in.High = max(in.Low, 0), min(in.High, 100)
	}
}

// snap puts an end of the slider on a step.
func (in *Input) snap(x float64) float64 {
	snapped, _ := strconv.ParseFloat(strconv.FormatFloat(math.Round(x/in.Step)*in.Step, 'f', in.Places, 64), 64)
	return snapped
}
