package wire

import (
	"fmt"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// A Judged is a rule of the house and where a worksheet breaks it.
type Judged struct {
	Text   string
	Broken []message.Diagnostic
}

// A finding is one thing that a worksheet needs attention for.
type finding struct {
	kind              *kind
	path              string
	line, column, end int // 0 where the whole file is meant
	says              string
}

// A kind of finding, as other programs name it.
type kind struct{ id, level, says string }

// The kinds, the gravest first. Levels are those of SARIF.
var (
	unreadable = &kind{"unreadable", "error", "The worksheet could not be read or written."}
	refused    = &kind{"left-as-it-is", "error", "The worksheet cannot be worked as it stands."}
	notWorked  = &kind{"not-worked", "error", "A line could not be worked."}
	limitOver  = &kind{"limit", "warning", "A limit does not hold."}
	ruleBroken = &kind{"rule", "warning", "A rule of the house is broken."}
	outOfDate  = &kind{"stale", "warning", "The results on the page are not those of its numbers."}
	remark     = &kind{"note", "note", "Worth knowing."}

	findingKinds = []*kind{unreadable, refused, notWorked, limitOver, ruleBroken, outOfDate, remark}
)

// findings lists what an outcome needs attention for.
func findings(o Outcome) (list []finding) {
	if o.Fault != "" {
		list = append(list, finding{kind: unreadable, path: o.Path, says: joined(o.Fault, o.Hint)})
	}
	if o.Result == nil {
		return list
	}
	f := former{o.Places, o.Result.Path}
	each := func(k *kind, all []message.Diagnostic) {
		for _, d := range all {
			list = append(list, f.finding(o.Path, k, d))
		}
	}
	each(refused, o.Result.Refused)
	if r := o.Result.Report; r != nil {
		each(notWorked, r.Errors)
		for _, l := range r.Broken() {
			each(limitOver, []message.Diagnostic{{Span: l.Span, Summary: "the limit " + l.Text + " " + limitSays(l), Hint: l.Advice}})
		}
	}
	for _, j := range o.Rules {
		for _, d := range j.Broken {
			d.Summary = "the rule " + j.Text + " is " + d.Summary
			list = append(list, f.finding(o.Path, ruleBroken, d))
		}
	}
	if o.Stale {
		list = append(list, finding{kind: outOfDate, path: o.Path, says: "the results are stale; inkwing run renews them"})
	}
	each(remark, o.Result.Notes)
	return list
}

func (f former) finding(path string, k *kind, d message.Diagnostic) finding {
	x := finding{kind: k, path: path, says: joined(d.Summary, d.Hint)}
	if other := f.other(d.Span.File); other != "" {
		x.path = other
	}
	if d.Span.End > 0 {
		x.line, x.column, x.end = f.places.At(d.Span)
	}
	return x
}

// joined is what is wrong and what mends it, as one text.
func joined(summary, hint string) string {
	if hint == "" {
		return summary
	}
	return summary + "; " + hint
}

func limitSays(l report.Limit) string {
	return fmt.Sprintf("does not hold: worked %s, allowed %s", l.Value, l.Allowed)
}
