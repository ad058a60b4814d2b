package main

import (
	"fmt"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// visible is text that is safe on a terminal: whatever comes from a file or a
// path goes through it.
func visible(text string) string { return message.Visible(text) }

// leftAsItIs is the state of a worksheet that was refused.
const leftAsItIs = "left as it is"

// showSummary prints one line: how many quantities, limits and cautions a file
// has, and its state.
func (t *tool) showSummary(s *stream, o outcome, state string) {
	switch state {
	case "stale":
		state = s.yellow(state)
	case "changed":
		state = s.bold(state)
	}
	if len(o.result.Refused) > 0 {
		state = s.red(leftAsItIs)
	}
	s.line(s.bold(visible(o.shown)) + ": " + strings.Join(append(counts(o.result), o.brokenRules(state)...), ", "))
}

// brokenRules is how many rules of the house are broken, if any, and the state.
func (o outcome) brokenRules(state string) []string {
	if n := o.rulesBroken(); n > 0 {
		return []string{count(n, "rule", "rules") + " broken", state}
	}
	return []string{state}
}

func counts(of *worksheet.Result) []string {
	switch {
	case len(of.Refused) > 0:
		return nil
	case of.Report == nil:
		return []string{"no working block"}
	}
	n := of.Report.Count()
	limits := count(n.Limits, "limit", "limits")
	if n.Broken > 0 {
		limits += fmt.Sprintf(" (%d not kept)", n.Broken)
	}
	out := []string{count(n.Quantities, "quantity", "quantities"), limits, count(n.Cautions, "caution", "cautions")}
	if n.Charts > 0 {
		out = append(out, count(n.Charts, "chart", "charts"))
	}
	if n.Errors > 0 {
		out = append(out, count(n.Errors, "error", "errors"))
	}
	return out
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// showFindings prints the limits that do not hold, what was refused, the errors
// and the notes of a file.
func (t *tool) showFindings(s *stream, o outcome) {
	r := o.result
	p := newPlaces(o)
	if r.Report != nil {
		for _, l := range r.Report.Broken() {
			p.print(s, "limit:", s.yellow, limitFinding(l))
		}
	}
	for _, d := range r.Refused {
		p.print(s, "error:", s.red, d)
	}
	if r.Report != nil {
		for _, d := range r.Report.Errors {
			p.print(s, "error:", s.red, d)
		}
	}
	for _, j := range o.rules {
		for _, d := range j.Broken {
			p.print(s, "rule:", s.yellow, d)
		}
	}
	p.notes(s, r.Notes)
}

// fewAlike is how many notes that say the same are printed.
const fewAlike = 3

// notes prints notes; of many that say the same the first few, and how many more
// there are.
func (p *places) notes(s *stream, list []message.Diagnostic) {
	type saying struct{ summary, hint string }
	all, said := map[saying]int{}, map[saying]int{}
	for _, d := range list {
		all[saying{d.Summary, d.Hint}]++
	}
	for _, d := range list {
		same := saying{d.Summary, d.Hint}
		if said[same]++; said[same] <= fewAlike {
			p.print(s, "note:", s.dim, d)
		}
		if more := all[same] - fewAlike; said[same] == fewAlike && more > 0 {
			s.printf("  %s\n", s.dim("and "+strconv.Itoa(more)+" more like it"))
		}
	}
}

func limitFinding(l report.Limit) message.Diagnostic {
	says := fmt.Sprintf("does not hold: worked %s, allowed %s", l.Value, l.Allowed)
	if l.Headroom != "" {
		says += ", headroom " + l.Headroom
	}
	return message.Diagnostic{Span: l.Span, Summary: says, Hint: l.Advice}
}
