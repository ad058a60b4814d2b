package check

import (
	"math"
	"slices"

	"inkwing/evaluate/message"
	"inkwing/evaluate/numeric/interval"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/syntax"
)

// correlations finds what each line correlation a, b = r speaks of, and refuses those
// that do not fit together. What is worked from a value of which two things are said
// waits: its interval would be wrong.
func (a *analysis) correlations() {
	said := map[[2]*program.Def]bool{}
	for _, s := range slices.Clone(a.Sheets) {
		for _, stmt := range s.Statements() {
			if x, ok := stmt.(*syntax.Correlation); ok {
				a.correlation(a.sheets[s], x, said)
			}
		}
	}
	a.fitTogether()
}

// A correlated is a value of a correlation: what is written, and where it stands.
type correlated struct {
	value     *syntax.Uncertain
	deviation *program.Def
	owner     *program.Def
}

// correlation keeps what a line says, unless another one has said it.
func (a *analysis) correlation(s *sheet, x *syntax.Correlation, said map[[2]*program.Def]bool) {
	var both [2]correlated
	for i, e := range x.Of {
		c, trouble := a.typedValue(s, e)
		if trouble != nil {
			s.fail(e.Place(), trouble.Summary, trouble.Hint)
		}
		if c == nil {
			return
		}
		both[i] = *c
	}
	first, second := both[0], both[1]
	switch {
	case first.deviation == second.deviation:
		s.fail(x.Span, "this is one value twice, which is off as it is off", "name two values")
	case freedom(first.value) != freedom(second.value):
		s.fail(x.Span, "the two have not the same degrees of freedom", "what was read together has as many readings: give both the same ν")
	case said[[2]*program.Def{first.deviation, second.deviation}]:
		s.fail(x.Span, "how these two are correlated is said twice", "leave one of the lines out")
	default:
		said[[2]*program.Def{first.deviation, second.deviation}], said[[2]*program.Def{second.deviation, first.deviation}] = true, true
		a.Correlations = append(a.Correlations, program.Correlation{
			A: first.deviation, B: second.deviation, R: x.Value.Value, Span: x.Span, Owners: [2]*program.Def{first.owner, second.owner}})
	}
}

func freedom(u *syntax.Uncertain) float64 {
	if u.Coverage.Freedom == nil {
		return math.Inf(1)
	}
	return u.Coverage.Freedom.Value
}

// typedValue is the value with ± that an address means. It is nil without trouble
// where what it means is in error, which is said there.
func (a *analysis) typedValue(s *sheet, e syntax.Expr) (*correlated, *reach.Trouble) {
	if x, ok := e.(*syntax.Argument); ok {
		return a.typedArgument(s, x)
	}
	if table, key, column, ok := reach.CellOf(e); ok {
		return a.typedIn(s, table, key, column)
	}
	d := s.meant(e)
	if d == nil {
		return nil, a.noTyped(s, e)
	}
	x, ok := d.Stmt.(*syntax.Definition)
	if !ok {
		return nil, notTyped(e)
	}
	return a.deviates(d, x.Value, e)
}

func (a *analysis) noTyped(s *sheet, e syntax.Expr) *reach.Trouble {
	name := syntax.Source(e)
	if s.unread[name] {
		return nil
	}
	return &reach.Trouble{Summary: "no quantity " + message.Quote(name) + " here", Hint: a.checker(&program.Def{Sheet: s.Sheet}).nearest(name)}
}

func notTyped(e syntax.Expr) *reach.Trouble {
	return &reach.Trouble{Summary: message.Quote(syntax.Source(e)) + " is no value that is typed with ±", Hint: "name two values such as `U = 10 V ± 0.1 V`; what is worked is correlated by what it is worked from"}
}

// deviates is the value that stands at an expression.
func (a *analysis) deviates(owner *program.Def, x syntax.Expr, e syntax.Expr) (*correlated, *reach.Trouble) {
	u, ok := syntax.Unparen(x).(*syntax.Uncertain)
	if !ok {
		return nil, notTyped(e)
	}
	if u.Op == "within" {
		return nil, &reach.Trouble{Summary: message.Quote(syntax.Source(e)) + " has hard limits, of which no correlation is known", Hint: "write its spread with ±"}
	}
	list := a.sheets[owner.Sheet].deviations[u]
	if len(list) != 1 {
		return nil, nil
	}
	return &correlated{u, list[0], owner}, nil
}

func (a *analysis) typedArgument(s *sheet, x *syntax.Argument) (*correlated, *reach.Trouble) {
	owner := s.meant(x.Of)
	if owner == nil {
		return nil, a.noTyped(s, x.Of)
	}
	stmt, ok := owner.Stmt.(*syntax.Definition)
	if !ok {
		return nil, notTyped(x)
	}
	found, trouble := a.reach.Find(x, stmt.Value, a.sheets[owner.Sheet].function)
	if trouble != nil {
		return nil, trouble
	}
	return a.deviates(owner, found.Arg.Value, x)
}

// typedIn is the value in a cell.
func (a *analysis) typedIn(s *sheet, table, key syntax.Expr, column string) (*correlated, *reach.Trouble) {
	d := s.meant(table)
	if d == nil {
		return nil, a.noTyped(s, table)
	}
	data, ok := d.Body.(*program.Data)
	if !ok || len(data.Source.Problems) > 0 || len(data.Source.Head) == 0 {
		return nil, notTyped(table)
	}
	row, at, trouble := a.reach.CellOfPage(data.Source, d.Sheet.Name, syntax.Source(table), key, column)
	if trouble != nil {
		return nil, trouble
	}
	cell := data.Source.Rows[row][at]
	x, problem := syntax.ParseValue(cell.Span.File, cell.Text, cell.Span.Start)
	deviation := a.cells[d][cell.Span]
	u, ok := x.(*syntax.Uncertain)
	switch {
	case problem != nil:
		return nil, nil // said at the cell
	case !ok || deviation == nil:
		return nil, notTyped(&syntax.Field{X: &syntax.Index{X: table, Key: key}, Name: syntax.Ident{Name: column}})
	case u.Op == "within":
		return nil, &reach.Trouble{Summary: "this cell has hard limits, of which no correlation is known", Hint: "write its spread with ±"}
	}
	return &correlated{u, deviation, d}, nil
}

// fitTogether refuses correlations that no errors can have together, such as a with b
// and b with c by 0.9, and a with c by none.
func (a *analysis) fitTogether() {
	for _, group := range program.Correlated(a.Correlations) {
		if interval.FitTogether(program.Matrix(group, a.Correlations)) {
			continue
		}
		var last program.Correlation
		for _, c := range a.Correlations {
			if slices.Contains(group, c.A) {
				last = c
				c.Owners[0].Failed, c.Owners[1].Failed = true, true
			}
		}
		a.byName[last.Span.File].say(message.Diagnostic{Span: last.Span,
			Summary: "these correlations cannot be together: no errors are off like that",
			Hint:    "say how every two of them are correlated, as one set of readings gives it; what is not said is 0"})
	}
}
