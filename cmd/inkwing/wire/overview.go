package wire

import "inkwing/evaluate/report"

// An Overview is a worksheet in short. Every list is there, if empty.
type Overview struct {
	Summary  string   `json:"summary"`
	Limits   []string `json:"limits"`     // as written, in the order of the overview
	Dangers  []string `json:"dangers"`    // IDs of cautions that the numbers raise
	Standing []string `json:"standing"`   // IDs of those that the things themselves do
	Unworked []string `json:"not_worked"` // lines
}

func overview(o *report.Overview) *Overview {
	x := &Overview{Summary: o.Summary, Limits: []string{}, Dangers: []string{}, Standing: []string{}, Unworked: []string{}}
	for _, l := range o.Limits {
		x.Limits = append(x.Limits, l.Text)
	}
	for _, c := range o.Dangers {
		x.Dangers = append(x.Dangers, c.ID)
	}
	for _, f := range o.Unworked {
		x.Unworked = append(x.Unworked, f.Line)
	}
	x.Standing = append(x.Standing, o.Standing...)
	return x
}
