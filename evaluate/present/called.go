package present

import (
	"slices"
	"strconv"

	"inkwing/evaluate/message"
	"inkwing/evaluate/working"
)

// mostCalls is how many calls that fail are named, before the others are counted.
const mostCalls = 3

// calls makes one of what is said of each call that fails at the same place of a
// function of the builder's own, and names the calls.
func calls(w *working.Evaluation, list []message.Diagnostic) []message.Diagnostic {
	at := map[message.Span]int{}
	var out []message.Diagnostic
	for _, d := range list {
		i, again := at[d.Span]
		switch {
		case !isCalled(d):
			out = append(out, d)
		case again:
			out[i].Notes = append(out[i].Notes, d.Notes...)
		default:
			at[d.Span] = len(out)
			d.Notes = slices.Clip(d.Notes) // the checking keeps its own
			out = append(out, d)
		}
	}
	for _, i := range at {
		out[i].Notes = distinct(out[i].Notes)
		out[i].Summary += asCalled(w, out[i])
	}
	return out
}

func isCalled(d message.Diagnostic) bool {
	return slices.ContainsFunc(d.Notes, func(n message.Note) bool { return n.Text == message.CalledHere })
}

// distinct keeps one note of each place.
func distinct(notes []message.Note) (kept []message.Note) {
	seen := make(map[message.Note]bool, len(notes))
	for _, n := range notes {
		if !seen[n] {
			seen[n], kept = true, append(kept, n)
		}
	}
	return kept
}

// asCalled names the calls as the builder wrote them.
func asCalled(w *working.Evaluation, d message.Diagnostic) string {
	var texts []string
	for _, n := range d.Notes {
		if n.Text == message.CalledHere && n.Span.File == w.Source.Main.Name {
			texts = append(texts, message.Quote(text(w, n.Span)))
		}
	}
	switch more := len(texts) - mostCalls; {
	case len(texts) == 0:
		return ""
	case more > 1:
		texts = append(texts[:mostCalls], strconv.Itoa(more)+" more")
	}
	return ", called as " + message.Enumerate(texts)
}
