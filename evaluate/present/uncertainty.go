package present

import (
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/study"
	"inkwing/evaluate/working"
)

// reported is how sure a number is, in the report.
func reported(u study.Combined) report.Uncertainty {
	if u.Expanded == 0 && !u.Drawn {
		return report.Uncertainty{}
	}
	return report.Uncertainty{U: u.U, Expanded: u.Expanded, DegreesOfFreedom: u.DegreesOfFreedom, Drawn: u.Drawn, Low: u.Low, High: u.High}
}

// roughness collects, by reason, what first order may mislead about.
type roughness struct {
	list []rough
	at   map[string]int // by the reason
}

// rough is quantities whose interval may be wrong for one reason.
type rough struct {
	why   string
	names []string
	block map[string]int // by name: the first that shows it
}

func (r *roughness) add(block int, why, name string) {
	i, known := r.at[why]
	if !known {
		if r.at == nil {
			r.at = map[string]int{}
		}
		i, r.list = len(r.list), append(r.list, rough{why: why, block: map[string]int{}})
		r.at[why] = i
	}
	m := &r.list[i]
	if at, known := m.block[name]; known {
		m.block[name] = min(at, block)
		return
	}
	m.block[name] = block
	m.names = append(m.names, name)
}

// first is the first block that shows one of some names.
func (r rough) first(names []string) int {
	at := r.block[names[0]]
	for _, name := range names {
		at = min(at, r.block[name])
	}
	return at
}

// note says what intervals may mislead about and, the first time and where nothing
// was drawn, what would tell.
func (r rough) note(w *working.Evaluation, names []string, first bool) string {
	head, quoted := "Rough interval", make([]string, len(names))
	for i, name := range names {
		quoted[i] = message.Quote(name)
	}
	if len(names) > 1 {
		head += "s"
	}
	text := head + " (" + r.why + "): " + message.Enumerate(quoted) + "."
	if first && w.Program.Main.Draws == 0 {
		text += " `draws " + drawsAdvised(w) + "` works whole distributions."
	}
	return text
}

// drawsAdvised is how many draws to try: enough to settle two digits, or what a
// page that runs simulations evaluates in a few seconds.
func drawsAdvised(w *working.Evaluation) string {
	for _, d := range w.Program.Defs {
		if d.Node() != nil && simulates(d.Node()) {
			return "1_000"
		}
	}
	return "100_000"
}

// simulates reports whether a node calls a simulation: a function whose answer holds
// a history.
func simulates(n program.Node) bool {
	if call, ok := n.(*program.Call); ok {
		for _, field := range call.Func.Result.Params {
			if field.Shape.Kind == library.Table {
				return true
			}
		}
	}
	return slices.ContainsFunc(program.Children(n), simulates)
}

// drawNote says what the draws came to.
func drawNote(w *working.Evaluation) string {
	n, settled := w.Uncertainty.Draws()
	switch {
	case w.DrawFault != nil:
		return "The draws could not be made: " + w.DrawFault.Error() + "."
	case n == 0:
		return "There is nothing to draw: no input has a spread."
	case !settled:
		return "Intervals are the shortest that hold 95 % of " + message.Thousands(n) + " draws (JCGM 101:2008). Their second digit has not settled everywhere; more draws would settle it."
	}
	return "Intervals are the shortest that hold 95 % of up to " + message.Thousands(n) + " draws (JCGM 101:2008); two digits have settled."
}

// mostMedians is how many quantities are named of which the median is shown.
const mostMedians = 6

// medianNote says of which quantities the median is shown, and why.
func medianNote(names []string) string {
	if len(names) == 0 {
		return ""
	}
	if more := len(names) - mostMedians; more > 0 {
		names = append(slices.Clone(names[:mostMedians]), message.Thousands(more)+" more")
	}
	return " The value of " + message.Each(names) + " is the median of its draws: with ν = 1, as two readings have, there is no mean."
}
