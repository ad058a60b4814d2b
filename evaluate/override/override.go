// Package override puts other values in the place of a sheet's plain ones, before
// it is checked.
//
// [Check] is its one verb. Nothing edits text: what was parsed stays as it is.
package override

import (
	"context"
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
)

// A Change is a plain value to be replaced, as a builder types it: "n_series=5",
// "parts.mass = 12 g ± 1 g"; a number inside a call, "store(series)=5"; a cell of a
// table, `cells["B50"].mass=12`. A bare number is in the unit of the definition's
// bracket or of the heading; for a row that is picked by its key, the key is enough,
// with or without quotes.
type Change struct{ Text string }

// Name is the address, or all of the text where no = stands in it.
func (c Change) Name() string {
	name, _, _ := c.cut()
	return strings.TrimSpace(name)
}

// cut parts the address from the value. A key in quotes may have a sign of its own.
func (c Change) cut() (name, value string, ok bool) {
	quoted := false
	for i, r := range c.Text {
		switch {
		case r == '"':
			quoted = !quoted
		case r == '=' && !quoted:
			return c.Text[:i], c.Text[i+1:], true
		}
	}
	return c.Text, "", false
}

// File is the name under which a message points into the change's text.
func (c Change) File() string { return "try: " + c.Text }

// Check checks a sheet that was checked as it stands with some plain values replaced, in it
// or in a sheet that it uses. Where a replacement cannot stand there is no evaluation, and
// the diagnostics say why, all of them at once; their places are in the changes, by
// [Change.File].
func Check(ctx context.Context, before *working.Evaluation, changes []Change) (*working.Evaluation, []message.Diagnostic) {
	if len(changes) == 0 {
		return before.Again(), nil
	}
	t := trial{program: before.Program, given: map[string]bool{}}
	for _, c := range changes {
		t.add(c)
	}
	source := before.Source.Again()
	source.Swap, source.Anew, source.Typed = t.swap, t.swaps, map[string]string{}
	for _, c := range changes {
		source.Typed[c.File()] = c.Text
	}
	after := working.Check(ctx, source)
	if t.fit(after.Program); len(t.problems) > 0 {
		return nil, t.problems
	}
	return after, nil
}

// A trial gathers what changes put in the place of what.
type trial struct {
	program  *program.Program // as it stands
	problems []message.Diagnostic
	list     []replacement
	given    map[string]bool // the addresses in it
	reach    reach.Finder
	names    inputNames
}

// A replacement is what stands in the place of a target.
type replacement struct {
	*target
	at    message.Span // of what was typed
	value syntax.Expr  // nil for a cell
	text  string       // of a cell
}

func (t *trial) fail(at message.Span, summary, hint string) {
	t.problems = append(t.problems, message.Diagnostic{Span: at, Summary: summary, Hint: hint})
}

// add reads a change and finds what it replaces.
func (t *trial) add(c Change) {
	all := message.Span{File: c.File(), End: len(c.Text)}
	name, value, ok := c.cut()
	if !ok || strings.TrimSpace(name) == "" || strings.TrimSpace(value) == "" {
		t.fail(all, "a change is written name=value", "for example: n_series=5, or \"V_full=10.5 V\" in quotes where a blank stands")
		return
	}
	at := message.Span{File: c.File(), Start: strings.Index(c.Text, strings.TrimSpace(name))}
	at.End = at.Start + len(strings.TrimSpace(name))
	found := t.target(strings.TrimSpace(name), at)
	if found == nil {
		return
	}
	if t.given[found.address] {
		t.fail(at, "`"+found.address+"` is given twice", "give it one value")
		return
	}
	t.put(found, c, value)
}

// put reads the value and keeps it for its target.
func (t *trial) put(of *target, c Change, value string) {
	start := len(c.Text) - len(value)
	read := t.value
	if of.cell != nil {
		read = t.cellValue
	}
	r, problem := read(of, c, value, start)
	if problem != nil {
		t.problems = append(t.problems, *problem)
		return
	}
	t.list, t.given[of.address] = append(t.list, r), true
}

// value reads a typed value. Where a text stands, or the key of a row, a text is
// meant: a shell takes the quotes away.
func (t *trial) value(of *target, c Change, text string, start int) (replacement, *message.Diagnostic) {
	span, trimmed := typed(c, text, start)
	index, isRow := of.old.(*syntax.Index)
	textual := syntax.IsText(of.old) || isRow && syntax.IsText(index.Key)
	var x syntax.Expr
	if textual && !strings.ContainsAny(trimmed, `"[`) {
		x = &syntax.Text{At: syntax.At{Span: span}, Value: trimmed}
	} else {
		var problem *message.Diagnostic
		if x, problem = syntax.ParsePlain(c.File(), text, start); problem != nil {
			return replacement{}, problem
		}
	}
	if isRow && syntax.IsKey(x) {
		x = &syntax.Index{At: syntax.At{Span: span}, X: index.X, Key: x}
	}
	if !syntax.Plain(x) {
		return replacement{}, &message.Diagnostic{Span: span, Summary: "a plain value is wanted, this is worked from others",
			Hint: "give a number with its unit, a text, or true or false"}
	}
	return replacement{target: of, at: x.Place(), value: x}, nil
}

// cellValue reads what is to stand in a cell.
func (t *trial) cellValue(of *target, c Change, text string, start int) (replacement, *message.Diagnostic) {
	span, trimmed := typed(c, text, start)
	if of.cell.commas {
		if problem := withComma(trimmed, span); problem != nil {
			return replacement{}, problem
		}
	} else if of.cell.numbers {
		if _, problem := syntax.ParseValue(c.File(), trimmed, span.Start); problem != nil {
			return replacement{}, problem
		}
	} else if x, problem := syntax.ParsePlain(c.File(), text, start); problem == nil && syntax.IsText(x) {
		trimmed = x.(*syntax.Text).Value
	}
	return replacement{target: of, at: span, text: trimmed}, nil
}

// withComma refuses what would not be read as a number in a column that is written
// with decimal commas: one point in it, and none of its numbers could be read.
func withComma(text string, at message.Span) *message.Diagnostic {
	if _, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64); err == nil && !strings.Contains(text, ".") {
		return nil
	}
	return &message.Diagnostic{Span: at, Summary: "the numbers of this column have decimal commas", Hint: "write the number alone and like them, such as `2,5`"}
}

// typed is a value without the blanks around it, and its place.
func typed(c Change, text string, start int) (message.Span, string) {
	trimmed := strings.TrimSpace(text)
	from := start + strings.Index(text, trimmed)
	return message.Span{File: c.File(), Start: from, End: from + len(trimmed)}, trimmed
}
