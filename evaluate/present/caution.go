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
	at := map[string]int{}
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
			list[i].Names = join(list[i].Names, c.Names)
		}
	}
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
	at := map[string]int{}
	for _, c := range all {
		i, again := at[c.ID]
		switch {
		case c.Kind == report.OfLimit:
			list = append(list, c)
		case !again:
			at[c.ID] = len(list)
			list = append(list, c)
		case worse(c, list[i]):
			c.Block, c.Names = list[i].Block, join(c.Names, list[i].Names)
			list[i] = c
		default:
			list[i].Names = join(list[i].Names, c.Names)
		}
	}
	return list
}

// worse reports whether one finding is graver than another of its kind.
func worse(a, b report.Caution) bool {
	return a.Level > b.Level || a.Level == b.Level && a.Severity > b.Severity
}

// join adds names to a list, each once; the list that is given stays.
func join(list, more []string) []string {
	list = slices.Clone(list)
	for _, name := range more {
		if !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}

// sentences are parts one behind another, those that there are.
func sentences(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " ")
}
