package override

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// fit refuses what cannot stand in a target's place: what the checking finds wrong in
// it, and a value of another kind.
func (t *trial) fit(after *program.Program) {
	defs, problems := placed(after), firstProblems(after)
	for _, r := range t.list {
		now := defs[placeOf(r.def)]
		if p := problems[now.Sheet][r.at.File]; p != nil {
			t.problems = append(t.problems, *p)
			continue
		}
		if t.otherKind(r) {
			continue
		}
		if d := r.def; !r.inside() && d.Type != nil && now.Type != nil && !program.Same(d.Type, now.Type) {
			t.fail(r.at, now.Type.String()+" in place of "+d.Type.String(), kindHint(d, now))
		}
	}
}

// otherKind refuses a number of another kind in a call, where a function may take
// any: its line would fail elsewhere.
func (t *trial) otherKind(r replacement) bool {
	was, ok := t.kindHere(r)
	now, both := kindOf(r.value)
	if !r.inside() || !ok || !both || was.Dim == now.Dim && was.Point == now.Point && program.MarksAgree(was.Mark, now.Mark) {
		return false
	}
	t.fail(r.at, now.String()+" in place of "+was.String(), "give `"+r.address+"` a value of its own kind")
	return true
}

// kindHere is the kind of what stands where a replacement goes: of a number, or of a
// quantity that is named there.
func (t *trial) kindHere(r replacement) (units.Kind, bool) {
	name, named := syntax.Dotted(r.old)
	if !named {
		return kindOf(r.old)
	}
	d := r.def.Sheet.Names[name]
	if d == nil {
		return units.Kind{}, false
	}
	q, ok := d.Type.(program.Quantity)
	return q.Kind, ok
}

// kindOf is the kind of a number that is written out; false for anything else.
func kindOf(x syntax.Expr) (units.Kind, bool) {
	switch x := x.(type) {
	case *syntax.Paren:
		return kindOf(x.X)
	case *syntax.Uncertain:
		return kindOf(x.Value)
	case *syntax.Number:
		if x.Unit == nil {
			return units.Kind{}, true
		}
		u, err := units.Parse(x.Unit.Text)
		return u.Kind, err == nil
	}
	return units.Kind{}, false
}

// inside reports whether it is a part of a definition or a table, and not all of it.
func (t *target) inside() bool { return t.cell != nil || t.arg != message.Span{} }

// A defPlace is where a definition of one program is found in another of the same
// sheets.
type defPlace struct {
	name, sheet string
	at          message.Span
}

func placeOf(d *program.Def) defPlace { return defPlace{d.Name, d.Sheet.Name, d.Place} }

// placed are the definitions of a program by their places, the first of each.
func placed(p *program.Program) map[defPlace]*program.Def {
	defs := make(map[defPlace]*program.Def, len(p.Defs))
	for _, d := range p.Defs {
		if defs[placeOf(d)] == nil {
			defs[placeOf(d)] = d
		}
	}
	return defs
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

// firstProblems are the first problem of each sheet in each file.
func firstProblems(of *program.Program) map[*program.Sheet]map[string]*message.Diagnostic {
	all := map[*program.Sheet]map[string]*message.Diagnostic{}
	for _, s := range of.Sheets {
		all[s] = map[string]*message.Diagnostic{}
		for i := range s.Problems {
			if p := &s.Problems[i]; all[s][p.Span.File] == nil {
				all[s][p.Span.File] = p
			}
		}
	}
	return all
}
