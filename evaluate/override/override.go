// Package override puts other values in the place of a sheet's plain ones, before
// it is checked.
//
// [Check] is its one verb. Nothing edits text: what was parsed stays as it is.
package override

import (
	"slices"
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// A Change is a plain value to be replaced, as a builder types it: "n_series=5",
// "parts.mass = 12 g ± 1 g". A bare number is in the unit of the definition's
// bracket; for a row that a definition picks by its key, the key is enough, with
// or without quotes.
type Change struct{ Text string }

// Name is the quantity's name, or all of the text where no = stands in it.
func (c Change) Name() string {
	name, _, _ := strings.Cut(c.Text, "=")
	return strings.TrimSpace(name)
}

// File is the name under which a message points into the change's text.
func (c Change) File() string { return "try: " + c.Text }

// Check checks a sheet with some plain values replaced, in it or in a sheet that it
// uses. Where a replacement cannot stand there is no evaluation, and the diagnostics
// say why, all of them at once; their places are in the changes, by [Change.File].
func Check(main *sheet.Sheet, load sheet.Loader, changes []Change) (*working.Evaluation, []message.Diagnostic) {
	before := working.Check(working.NewSource(main, load))
	t := trial{program: before.Program, values: map[syntax.Statement]syntax.Expr{}}
	for _, c := range changes {
		t.add(c)
	}
	source := working.NewSource(main, load)
	source.Swap, source.Typed = t.swap, map[string]string{}
	for _, c := range changes {
		source.Typed[c.File()] = c.Text
	}
	after := working.Check(source)
	if t.fit(after.Program); len(t.problems) > 0 {
		return nil, t.problems
	}
	return after, nil
}

// A trial gathers what changes put in the place of which definitions.
type trial struct {
	program  *program.Program // as it stands
	problems []message.Diagnostic
	defs     []*program.Def
	at       []message.Span // of each replacing value
	values   map[syntax.Statement]syntax.Expr
}

func (t *trial) fail(at message.Span, summary, hint string) {
	t.problems = append(t.problems, message.Diagnostic{Span: at, Summary: summary, Hint: hint})
}

// add reads a change and finds its definition.
func (t *trial) add(c Change) {
	all := message.Span{File: c.File(), End: len(c.Text)}
	name, value, ok := strings.Cut(c.Text, "=")
	if !ok || strings.TrimSpace(name) == "" || strings.TrimSpace(value) == "" {
		t.fail(all, "a change is written name=value", "for example: n_series=5, or \"V_full=10.5 V\" in quotes where a blank stands")
		return
	}
	at := message.Span{File: c.File(), Start: strings.Index(c.Text, strings.TrimSpace(name))}
	at.End = at.Start + len(strings.TrimSpace(name))
	d := t.find(strings.TrimSpace(name), at)
	if d == nil {
		return
	}
	if slices.Contains(t.defs, d) {
		t.fail(at, "`"+strings.TrimSpace(name)+"` is given twice", "give it one value")
		return
	}
	t.put(d, c, value)
}

// put reads the value and keeps it for its definition.
func (t *trial) put(d *program.Def, c Change, value string) {
	old := d.Stmt.(*syntax.Definition).Value
	start := len(c.Text) - len(value)
	x, problem := t.value(old, c, value, start)
	if problem != nil {
		t.problems = append(t.problems, *problem)
		return
	}
	t.defs, t.at = append(t.defs, d), append(t.at, x.Place())
	t.values[d.Stmt] = x
}

// value reads a typed value. Where a text stands, or the key of a row, a text is
// meant: a shell takes the quotes away.
func (t *trial) value(old syntax.Expr, c Change, text string, start int) (syntax.Expr, *message.Diagnostic) {
	trimmed := strings.TrimSpace(text)
	from := start + strings.Index(text, trimmed)
	span := message.Span{File: c.File(), Start: from, End: from + len(trimmed)}
	index, isRow := old.(*syntax.Index)
	textual := syntax.IsText(old) || isRow && syntax.IsText(index.Key)
	var x syntax.Expr
	if textual && !strings.ContainsAny(trimmed, `"[`) {
		x = &syntax.Text{At: syntax.At{Span: span}, Value: trimmed}
	} else {
		var problem *message.Diagnostic
		if x, problem = syntax.ParsePlain(c.File(), text, start); problem != nil {
			return nil, problem
		}
	}
	if isRow && syntax.IsKey(x) {
		x = &syntax.Index{At: syntax.At{Span: span}, X: index.X, Key: x}
	}
	if !syntax.Plain(x) {
		return nil, &message.Diagnostic{Span: span, Summary: "a plain value is wanted, this is worked from others",
			Hint: "give a number with its unit, a text, or true or false"}
	}
	return x, nil
}

// swap puts the new values into a sheet's tree; the tree that was parsed stays
// as it is.
func (t *trial) swap(in *check.Input) {
	if in.Tree == nil {
		return
	}
	for i, stmt := range in.Tree.Statements {
		d, ok := stmt.(*syntax.Definition)
		if !ok {
			continue
		}
		for _, changed := range t.defs {
			if changed.Sheet.Name == in.Name && changed.Place == d.Name.Span {
				replaced := *d
				replaced.Value = t.values[changed.Stmt]
				in.Tree.Statements[i] = &replaced
			}
		}
	}
}

// fit refuses what cannot stand in a definition's place: what the checking finds
// wrong in it, and a value of another kind.
func (t *trial) fit(after *program.Program) {
	for i, d := range t.defs {
		now := sameIn(after, d)
		if p := problemIn(now.Sheet, t.at[i].File); p != nil {
			t.problems = append(t.problems, *p)
			continue
		}
		if d.Type != nil && now.Type != nil && !program.Same(d.Type, now.Type) {
			t.fail(t.at[i], now.Type.String()+" in place of "+d.Type.String(), kindHint(d, now))
		}
	}
}

// sameIn is a definition of one program in another one of the same sheets.
func sameIn(p *program.Program, d *program.Def) *program.Def {
	i := slices.IndexFunc(p.Defs, func(x *program.Def) bool {
		return x.Name == d.Name && x.Sheet.Name == d.Sheet.Name && x.Place == d.Place
	})
	return p.Defs[i]
}

// kindHint says in which unit a value is wanted.
func kindHint(d, now *program.Def) string {
	was, isNumber := d.Type.(program.Quantity)
	if !isNumber {
		return "give `" + d.Name + "` a value of its own kind"
	}
	if q, ok := now.Type.(program.Quantity); ok && q.Dim.IsNumber() {
		unit := d.Written().String()
		if unit == "" {
			unit = was.Dim.SIUnit()
		}
		return "its value needs a unit: write \"" + d.Name + "=" + numberOf(now) + unit + "\""
	}
	return "give `" + d.Name + "` a value of its own kind"
}

// numberOf is the number that a builder typed, with a blank behind it where there is
// one; as the shell would have it without quotes, none.
func numberOf(d *program.Def) string {
	if x, ok := d.Stmt.(*syntax.Definition); ok {
		if n, ok := x.Value.(*syntax.Number); ok {
			return n.Text + " "
		}
	}
	return "… "
}

// problemIn is the first problem of a sheet at a place of that file.
func problemIn(s *program.Sheet, file string) *message.Diagnostic {
	for _, p := range s.Problems {
		if p.Span.File == file {
			return &p
		}
	}
	return nil
}
