package rules

import (
	"math"
	"reflect"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// Judge holds a journal against a rule, and says where it is broken: at the row,
// or at the whole file where a row is missing.
func (r *Rule) Judge(j *Journal) (broken []message.Diagnostic) {
	met := false
	for _, row := range j.of(r.subject) {
		if j.machine.ask(r.where, row) != yes {
			continue
		}
		got := j.machine.ask(r.demand, row)
		met = met || got == yes
		switch {
		case got == unaskable && !failed(row):
			broken = append(broken, r.finding(j, row, r.strange(row)))
		case r.quantifier == every && got != yes:
			broken = append(broken, r.finding(j, row, r.tells(row)))
		case r.quantifier == none && got == yes:
			broken = append(broken, r.finding(j, row, r.tells(row)))
		}
	}
	if r.quantifier == some && !met {
		broken = append(broken, r.missing(j))
	}
	return broken
}

// failed reports whether a row could not be worked: then every demand on it fails.
func failed(r row) bool {
	f := reflect.ValueOf(r).Elem().FieldByName("Failed")
	return f.IsValid() && f.Bool()
}

// finding says which row breaks the rule, with what it tells of what was asked.
func (r *Rule) finding(j *Journal, row row, tells string) message.Diagnostic {
	at := row.base().span
	d := message.Diagnostic{Span: at, Summary: "broken by " + row.title(), Hint: r.Advice, Notes: r.note()}
	if tells != "" {
		d.Summary += ": " + tells
	}
	return d
}

func (r *Rule) note() []message.Note {
	return []message.Note{{Span: r.Span, Text: "the rule"}}
}

func (r *Rule) missing(j *Journal) message.Diagnostic {
	return message.Diagnostic{Span: message.Span{File: j.report.Sheet}, Hint: r.Advice, Notes: r.note(),
		Summary: "broken: there is no " + r.subject.Name + " of that kind"}
}

// strange says that a rule asks a row for a unit that it does not have.
func (r *Rule) strange(row row) string {
	c := row.base()
	if c.unfit == 0 {
		return "the rule cannot be asked of it"
	}
	wants := c.wants[c.unfit-1]
	says := "the rule compares it with " + wants.String() + ", and it is "
	if c.kind == nil {
		return says + "no number"
	}
	return says + c.kind.String() + "; add `where unit == \"" + wants.Dim.SIUnit() + "\"` to the rule"
}

// tells are the fields that the rule asked for, as the row has them.
func (r *Rule) tells(row row) string {
	if failed(row) {
		return "it could not be worked"
	}
	p := r.demand
	if p == nil {
		return ""
	}
	var says []string
	for _, a := range p.asks {
		if text := a.of(row); text != "" {
			says = append(says, a.field.Name+" "+text)
		}
	}
	return strings.Join(says, ", ")
}

// of is what a row tells of what was asked, in the unit in which it was asked.
func (a asked) of(r row) string {
	switch x := a.field.of(r).(type) {
	case float64:
		return a.number(x, r)
	case bool:
		return map[bool]string{true: "yes", false: "no"}[x]
	case string:
		return `"` + x + `"`
	}
	return ""
}

func (a asked) number(x float64, r row) string {
	switch {
	case math.IsNaN(x) && a.field.Name == "headroom":
		return "not known: a share of a temperature, or of 0, means nothing"
	case math.IsNaN(x):
		return "not known"
	}
	u, c := a.unit, r.base()
	if a.field.measure != "" && c.kind != nil && (u.IsZero() || u.Kind.Dim != c.kind.Dim) {
		if u = c.own; u.IsZero() {
			u = units.Fitting(*c.kind, x)
		}
	}
	if a.field.measure == "difference" {
		u = u.Difference()
	}
	return units.Show(x, u, 4)
}
