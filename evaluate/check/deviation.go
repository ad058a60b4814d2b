package check

import (
	"math"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// Bounds on the uncertain inputs of a sheet with all that it uses: each of them is an
// evaluation of everything that depends on it, and more.
const (
	maxDeviations = 1000
	maxReach      = 300_000 // values that each of them bears on, added up
)

// deviations numbers those of a sheet: an input of the graph for each ± and
// within, and for each field of a call's answer that knows its uncertainty. They
// are numbered before anything is checked, since the graph orders the checking.
func (a *analysis) deviations(s *sheet) {
	for _, d := range slices.Clone(s.Defs) {
		for _, e := range expressions(d.Stmt) {
			a.deviationsIn(d, e)
		}
	}
}

// expressions are those of a statement in which an uncertain value may stand.
func expressions(stmt syntax.Statement) []syntax.Expr {
	switch x := stmt.(type) {
	case *syntax.Definition:
		return []syntax.Expr{x.Value}
	case *syntax.Limit:
		return []syntax.Expr{x.Bound}
	case *syntax.Measured:
		return []syntax.Expr{x.Value}
	case *syntax.Show:
		return []syntax.Expr{x.Of}
	}
	return nil
}

func (a *analysis) deviationsIn(d *program.Def, e syntax.Expr) {
	switch x := e.(type) {
	case *syntax.Vary, *syntax.Adjust, *syntax.Tune:
		return // an input of a study is not uncertain: it is what varies
	case *syntax.Uncertain:
		a.deviation(d, x, 1)
	case *syntax.Call:
		a.deviation(d, x, uncertainFields(d.Sheet, x))
	}
	for _, child := range syntax.Children(e) {
		a.deviationsIn(d, child)
	}
}

// uncertainFields is how many fields of a call's answer know their uncertainty.
func uncertainFields(s *program.Sheet, x *syntax.Call) int {
	if s.Functions[x.Func.Name] != nil {
		return 0
	}
	f, ok := library.Lookup(x.Func.Name)
	if !ok || f.Estimate == nil {
		return 0
	}
	return len(f.Estimated)
}

func (a *analysis) deviation(owner *program.Def, e syntax.Expr, n int) {
	s := a.of(owner)
	for range n {
		if a.tooMany(owner, e.Place()) {
			return
		}
		d := a.add(s, owner.Stmt, e.Place(), &program.Deviation{})
		a.owners = append(a.owners, [2]*program.Def{d, owner})
		s.deviations[e] = append(s.deviations[e], d)
	}
}

// tooMany says once that there are more uncertain inputs than can be worked. What
// stands behind that is not worked either.
func (a *analysis) tooMany(owner *program.Def, at message.Span) bool {
	a.uncertain++
	if a.uncertain <= maxDeviations {
		return false
	}
	if a.uncertain == maxDeviations+1 {
		a.fail(owner, at, "there are more than 1000 uncertain inputs here", "give a column one shared spread: `log.U ± 0.01 V`")
	}
	owner.Failed = true
	return true
}

// boundReach says once that the uncertain inputs bear on more values than can be
// worked. Those that stand behind that are not worked either.
func (a *analysis) boundReach() {
	left := maxReach
	for _, o := range a.owners {
		d, owner := o[0], o[1]
		if left >= 0 && !a.over() {
			if left -= len(a.Graph.Above([]int{d.ID})); left < 0 {
				a.fail(owner, d.Place, "the uncertain inputs bear on more than 300,000 values, each counted by itself",
					"give fewer of them a spread, or split the worksheet")
			}
		}
		if left < 0 {
			owner.Failed = true
		}
	}
}

// cellDeviations numbers those of the cells that have a spread.
func (a *analysis) cellDeviations(d *program.Def, t *syntax.Table) {
	for _, row := range t.Rows {
		for _, cell := range row {
			if !mayBeUncertain(cell.Text) || a.tooMany(d, cell.Span) {
				continue
			}
			if a.cells[d] == nil {
				a.cells[d] = map[message.Span]*program.Def{}
			}
			of := a.add(a.of(d), d.Stmt, cell.Span, &program.Deviation{})
			a.owners = append(a.owners, [2]*program.Def{of, d})
			a.cells[d][cell.Span] = of
		}
	}
}

func mayBeUncertain(cell string) bool {
	return strings.Contains(cell, "±") || strings.Contains(cell, "+/-") || strings.Contains(cell, "within ")
}

// deviationsOf are those of a table's cells.
func (a *analysis) deviationsOf(table *program.Def) []*program.Def {
	list := make([]*program.Def, 0, len(a.cells[table]))
	for _, cell := range a.cells[table] {
		list = append(list, cell)
	}
	slices.SortFunc(list, func(a, b *program.Def) int { return a.ID - b.ID })
	return list
}

// uncertainCall lets a call's answer lie off its nominal by the deviations of the
// fields that know their uncertainty.
func (c *checker) uncertainCall(x *syntax.Call, call *program.Call) program.Node {
	deviations := c.sheet.deviations[x]
	if len(deviations) == 0 || call.Each || len(deviations) != len(call.Func.Estimated) {
		return call
	}
	node := &program.UncertainCall{Typed: typed(x.Span, call.Type()), X: call, Fields: call.Func.Estimated, Deviations: deviations}
	for i, d := range deviations {
		source := &program.Source{Name: c.sourceName(x, call, i), Owner: c.def, Call: node, Field: i, DegreesOfFreedom: math.Inf(1)}
		if at := call.Func.Estimated[i]; at >= 0 {
			source.Unit = node.Type().(*program.Record).Fields[at].Unit
		}
		d.Body = &program.Deviation{Source: source}
	}
	return node
}

// sourceName is the quantity or its field.
func (c *checker) sourceName(x *syntax.Call, call *program.Call, field int) string {
	name := c.placeName(x)
	if name == "" {
		name = c.lineName()
	}
	if name == "" {
		name = call.Func.Name
	}
	at := call.Func.Estimated[field]
	if at < 0 {
		return name
	}
	return name + "." + call.Func.Result.Params[at].Name
}
