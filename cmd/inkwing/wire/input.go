package wire

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// An Input is what a builder typed and can change, by its address and in its place.
type Input struct {
	Address string   `json:"address"` // V_full, parts.n_series, store(series), cells["B50"].mass
	Kind    string   `json:"kind"`    // value, argument or cell
	Path    string   `json:"path,omitempty"`
	Line    int      `json:"line"`
	Bytes   [2]int   `json:"bytes"`  // where all of it begins and ends in the file, from 0
	Digits  *[2]int  `json:"digits"` // its number without the unit; null where it is none
	Unit    string   `json:"unit"`   // of what is typed there
	Text    string   `json:"text"`
	SI      *float64 `json:"si"`
	SIUnit  string   `json:"si_unit"`
	Value   any      `json:"value,omitempty"` // of a truth or text
	Choices []string `json:"choices,omitempty"`
	Note    string   `json:"note"`
}

var inputKinds = map[report.InputKind]string{report.PlainValue: "value", report.InCall: "argument", report.InCell: "cell"}

// inputs is the form of what can be changed.
func (f former) inputs(list []report.Input) []Input {
	out := make([]Input, len(list))
	for i, in := range list {
		out[i] = Input{Address: in.Address, Kind: inputKinds[in.Kind], Path: f.other(in.Path), Line: f.line(in.Span), Bytes: [2]int{in.Span.Start, in.Span.End},
			Unit: in.Unit.String(), Text: in.Text, SIUnit: in.SIUnit(), Choices: in.Choices, Note: in.Note}
		if in.Digits != (message.Span{}) {
			out[i].Digits = &[2]int{in.Digits.Start, in.Digits.End}
		}
		switch v := in.Value.(type) {
		case float64:
			out[i].SI = held(&v)
		case bool, string:
			out[i].Value = v
		}
	}
	return out
}
