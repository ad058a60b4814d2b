package present

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/run"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// cautions are what the models raised: a standing hazard once a worksheet, any
// other once for each finding, with the names that it concerns.
func cautions(w *working.Evaluation) (list []report.Caution) {
	at, all := map[string]int{}, namings{}
	for _, r := range w.Machine.Raised() {
		if r.Def.Sheet != w.Program.Main {
			continue
		}
		c := raised(w, r)
		key := c.ID
		if !r.Standing {
			key += c.Text
		}
		i, again := at[key]
		switch {
		case !again:
			at[key] = len(list)
			list = append(list, c)
		case r.Standing:
			list[i] = standing(list[i], c)
		default:
			all.of(i, list[i].Names).add(c.Names)
		}
	}
	all.put(list)
	return list
}

// standing is a hazard that is said once, where it first arises, with its gravest
// number.
func standing(first, again report.Caution) report.Caution {
	if !worse(again, first) {
		return first
	}
	again.Block = first.Block
	return again
}

func raised(w *working.Evaluation, r run.Raised) report.Caution {
	kind := report.OfModel
	if r.Standing {
		kind = report.OfStanding
	}
	says := func(part string) string {
		if part == "" {
			return ""
		}
		return message.Sentence(run.Fill(part, r.Values, units.Kind{}))
	}
	c := report.Caution{
		ID: r.ID, Kind: kind, Level: r.Level, Span: r.Span, Block: r.Def.Block, Source: r.Source,
		Summary: says(r.Summary), Why: says(r.Why), Hint: says(r.Hint), Severity: r.Excess(),
		Names: []string{subject(w, r.Def)},
	}
	c.Text = sentences(c.Summary, c.Why, c.Hint)
	return c
}

// subject is whom a caution concerns: the definition's name, or what its statement
// is about.
func subject(w *working.Evaluation, d *program.Def) string {
	switch x := d.Stmt.(type) {
	case *syntax.Limit:
		return text(w, x.Bound.Span)
	case *syntax.Measured:
		return text(w, x.Of.Place())
	case *syntax.Budget:
		return text(w, x.Of.Place())
	}
	if d.Name == "" {
		return verb(d)
	}
	return d.Name
}

// once joins the findings of one kind, each to where it first arises: the gravest
// speaks, its name goes first.
func once(all []report.Caution) (list []report.Caution) {
	at, names := map[string]int{}, namings{}
	for _, c := range all {
		i, again := at[c.ID]
		switch {
		case c.Kind == report.OfLimit:
			list = append(list, c)
		case !again:
			at[c.ID] = len(list)
			list = append(list, c)
		case worse(c, list[i]):
			names.of(i, list[i].Names).putBefore(c.Names)
			c.Block = list[i].Block
			list[i] = c
		default:
			names.of(i, list[i].Names).add(c.Names)
		}
	}
	names.put(list)
	return list
}

// worse reports whether one finding is graver than another of its kind.
func worse(a, b report.Caution) bool {
	return a.Level > b.Level || a.Level == b.Level && a.Severity > b.Severity
}

// A naming gathers the names that one caution concerns: a thousand lines may raise it.
type naming struct{ before, behind [][]string }

func (n *naming) add(names []string)       { n.behind = append(n.behind, names) }
func (n *naming) putBefore(names []string) { n.before = append(n.before, names) }

// all are the names, each once, what was put before others last first.
func (n *naming) all() (list []string) {
	seen := map[string]bool{}
	slices.Reverse(n.before)
	for _, names := range slices.Concat(n.before, n.behind) {
		for _, name := range names {
			if !seen[name] {
				seen[name], list = true, append(list, name)
			}
		}
	}
	return list
}

// namings are those of some cautions in a list, by their places.
type namings map[int]*naming

// of is the naming of a caution that has had some names so far.
func (n namings) of(i int, sofar []string) *naming {
	if n[i] == nil {
		n[i] = &naming{behind: [][]string{sofar}}
	}
	return n[i]
}

func (n namings) put(list []report.Caution) {
	for i, names := range n {
		list[i].Names = names.all()
	}
}

// sentences are parts one behind another, those that there are.
func sentences(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " ")
}
