package present

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// tested is which operand a limit is set to: the middle one of two bounds, else the
// one that is not written out.
func tested(b *program.Limit) int {
	if len(b.Ops) == 2 || literal(b.Sides[0]) && !literal(b.Sides[1]) {
		return 1
	}
	return 0
}

// testedIn is that operand as the sheet would write it; what has no name of its own,
// with the sheet that it is of.
func testedIn(w *working.Evaluation, d *program.Def) string {
	e := d.Stmt.(*syntax.Limit).Bound.Operands[tested(d.Body.(*program.Limit))]
	said := textIn(w, d.Sheet, e.Place())
	if d.Sheet == w.Program.Main {
		return message.Quote(said)
	}
	under := usedAs(w, d.Sheet)
	if _, named := syntax.Dotted(e); named {
		return message.Quote(within(under, said))
	}
	return message.Quote(said) + " of " + message.Quote(under)
}

// shortNames are limits by what they test, where that is tested by one limit alone,
// else in full. They are worked out when the first is asked for.
type shortNames struct {
	first   map[string]string // by what is tested: the first bound of it
	several map[string]bool   // what has more bounds than one
}

func (s *shortNames) of(w *working.Evaluation, limits []*program.Def) string {
	if s.first == nil {
		s.find(w)
	}
	var names []string
	for _, l := range withoutTwins(w, limits) {
		name := testedIn(w, l)
		if s.several[name] {
			name = limitText(w, l)
		}
		names = append(names, name)
	}
	return message.Enumerate(names)
}

func (s *shortNames) find(w *working.Evaluation) {
	s.first, s.several = map[string]string{}, map[string]bool{}
	for _, d := range w.Program.Defs {
		if b, ok := d.Body.(*program.Limit); !ok || len(b.Sides) == 0 { // it could not be read
			continue
		}
		name, bound := testedIn(w, d), boundIn(w, d)
		if first, again := s.first[name]; again {
			s.several[name] = s.several[name] || first != bound
			continue
		}
		s.first[name] = bound
	}
}

// limitTexts names limits in full.
func limitTexts(w *working.Evaluation, limits []*program.Def) string {
	var names []string
	for _, l := range withoutTwins(w, limits) {
		names = append(names, limitText(w, l))
	}
	return message.Enumerate(names)
}

// limitText is a limit as it is written, and of which sheet it is.
func limitText(w *working.Evaluation, l *program.Def) string {
	name := message.Quote(textIn(w, l.Sheet, l.Stmt.(*syntax.Limit).Bound.Span))
	if l.Sheet != w.Program.Main {
		name += " of " + message.Quote(usedAs(w, l.Sheet))
	}
	return name
}

// withoutTwins leaves out what a used sheet sets where the sheet sets the same.
func withoutTwins(w *working.Evaluation, limits []*program.Def) []*program.Def {
	own := map[string]bool{}
	for _, l := range limits {
		if l.Sheet == w.Program.Main {
			own[boundIn(w, l)] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(limits), func(l *program.Def) bool {
		return l.Sheet != w.Program.Main && own[boundIn(w, l)]
	})
}

// boundIn is what a limit compares, with names as the sheet would write them.
func boundIn(w *working.Evaluation, d *program.Def) string {
	under := ""
	if d.Sheet != w.Program.Main {
		under = usedAs(w, d.Sheet)
	}
	var parts []string
	for i, e := range d.Stmt.(*syntax.Limit).Bound.Operands {
		if i > 0 && i <= len(d.Body.(*program.Limit).Ops) {
			parts = append(parts, d.Body.(*program.Limit).Ops[i-1])
		}
		said := textIn(w, d.Sheet, e.Place())
		if _, named := syntax.Dotted(e); named {
			said = within(under, said)
		}
		parts = append(parts, said)
	}
	return strings.Join(parts, " ")
}

// named says in full which limits the rows of a table break, since a row names them
// shortly.
func named(w *working.Evaluation, t *report.Table, broken [][]*program.Def) {
	var all []*program.Def
	seen := map[*program.Def]bool{}
	for _, row := range broken {
		for _, l := range row {
			if !seen[l] {
				seen[l], all = true, append(all, l)
			}
		}
	}
	if len(all) > 0 {
		t.Details = append(t.Details, "The limits broken here: "+limitTexts(w, all)+".")
	}
}
