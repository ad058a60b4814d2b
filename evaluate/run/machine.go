// Package run evaluates a checked program: numbers in coherent SI, one definition
// after another in the order of the graph.
//
// [New] makes a [Machine], [Machine.Run] evaluates everything, and a [Subgraph]
// evaluates a part of it again with other inputs.
package run

import (
	"context"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
)

// A Raised is a caution with the call and the definition that raised it.
type Raised struct {
	model.Caution
	Span message.Span
	Def  *program.Def
}

// A Fault is why a value could not be worked.
type Fault struct {
	message.Diagnostic
	Cell string // the cell of a table that is not known, as a builder would write it
	Told bool   // what is wrong with that cell has been said
	// Missing reports that it is a cell of the row being looked at that is not known.
	Missing bool

	never bool // it is known, and not reached
}

// Error is what is wrong, for a caller that wants an error.
func (f *Fault) Error() string { return f.Summary }

// A Machine holds what has been evaluated.
type Machine struct {
	program *program.Program
	ctx     context.Context // of the one run that the machine is made for; what iterates in the library takes it too
	hushed  context.Context // the same, for what is worked without cautions
	values  store           // by definition: float64, bool, string, library values; nil if not evaluated
	faults  []*Fault        // by definition, of a machine that is no fork; waits too
	waits   []string
	params  map[*program.Param]any
	raised  []Raised
	now     *program.Def
	steps   int
	cells   int // of what studies came to
	most    int // that many steps and no more
	study   Study
	memo    *Memo // nil to work every call
	found   map[program.Node]any
	nominal *Machine                   // the one that a subgraph was cut from to move uncertain inputs; nil for another
	rows    int                        // how long a sweep may be that is evaluated again there
	moving  []int                      // the inputs that are moved there
	leaves  map[*program.Call][]string // what calls leave out, of a subgraph of which not all is read
	quiet   int                        // above 0 while a subgraph is evaluated again: cautions hold at the nominal point only
}

// A Study evaluates a vary, adjust or tune, with the machine as it stands.
type Study func(m *Machine, n program.Node) (any, *Fault)

// MaxSteps bounds the work of one run: nodes and list elements evaluated. A page of
// notes takes a few hundred; what-ifs that ask for each other can double with
// every line.
const MaxSteps = 20_000_000

// askEvery is how many steps pass between two looks at the deadline.
const askEvery = 4096

// spend counts steps against the bound and the deadline.
func (m *Machine) spend(n int, at program.Node) *Fault {
	before := m.steps / askEvery
	m.steps += n
	if m.steps > m.most {
		return Fail(at.Place(), "this worksheet takes more work than a run may do, and stops here", "split it, thin its tables out, or nest its what-ifs less")
	}
	if m.steps/askEvery != before && m.ctx.Err() != nil {
		return tooLong(at.Place())
	}
	return nil
}

// tooLong is the fault of a run that was told to stop.
func tooLong(at message.Span) *Fault { return Fail(at, "this took too long and was stopped", "") }

// New makes a machine for a program, which stops with the context, and remembers with
// its [Memo]; study evaluates its what-ifs.
func New(ctx context.Context, p *program.Program, study Study) *Machine {
	n := len(p.Defs)
	m := newMachine(ctx, p, study)
	m.values, m.faults, m.waits = newStore(n), make([]*Fault, n), make([]string, n)
	m.memo = memoOf(ctx)
	return m
}

func newMachine(ctx context.Context, p *program.Program, study Study) *Machine {
	return &Machine{
		program: p, study: study, ctx: ctx, hushed: model.Quiet(ctx), most: MaxSteps,
		params: map[*program.Param]any{}, found: map[program.Node]any{},
	}
}

// Bound sets how many steps the run may take instead of [MaxSteps].
func (m *Machine) Bound(steps int) { m.most = steps }

// Keep notes what a study found beside its value, for the report.
func (m *Machine) Keep(n program.Node, x any) { m.found[n] = x }

// Kept is what a study found beside its value.
func (m *Machine) Kept(n program.Node) any { return m.found[n] }

// Run evaluates every definition that can be.
func (m *Machine) Run() {
	for _, id := range m.program.Graph.Order() {
		m.define(m.program.Defs[id])
	}
}

// RunOnly evaluates some definitions and what they need; all others wait to be asked
// for.
func (m *Machine) RunOnly(only map[int]bool) {
	for _, id := range m.program.Graph.Order() {
		if d := m.program.Defs[id]; only[id] {
			m.define(d)
		} else {
			m.waits[id] = NotAsked
		}
	}
}

// NotAsked is what a definition waits for that was left out.
const NotAsked = "what was not asked for"

// Value is what a definition came to, nil if it could not be evaluated.
func (m *Machine) Value(d *program.Def) any { return m.values.at(d.ID) }

// Fault is why a definition's own line failed while running, nil if it did not.
func (m *Machine) Fault(d *program.Def) *Fault { return m.faults[d.ID] }

// Waits names what a definition waits for, empty if it does not.
func (m *Machine) Waits(d *program.Def) string {
	if d.Waits != "" {
		return d.Waits
	}
	return m.waits[d.ID]
}

// Raised lists the cautions, in the order of the graph.
func (m *Machine) Raised() []Raised { return m.raised }

func (m *Machine) define(d *program.Def) {
	if !d.OK() || program.Is[*program.Function](d) {
		return
	}
	if waits := m.missing(d); waits != "" {
		m.waits[d.ID] = waits
		return
	}
	m.now = d
	v, f := m.evaluate(d)
	m.values.put(d.ID, v)
	m.faults[d.ID] = f
}

// missing names the first need that is not evaluated.
func (m *Machine) missing(d *program.Def) string {
	for _, id := range d.Dependencies {
		if m.values.at(id) == nil {
			return m.program.Defs[id].Shown(d.Sheet)
		}
	}
	return ""
}

// evaluate is the value of a definition; that of a limit, a measurement or a chart is
// its operands side by side.
func (m *Machine) evaluate(d *program.Def) (any, *Fault) {
	if m.ctx.Err() != nil {
		return nil, tooLong(d.Place)
	}
	switch b := d.Body.(type) {
	case *program.Data:
		return m.data(b), nil
	case *program.Deviation:
		return 0.0, nil
	case *program.Value, *program.Study, *program.Budget, *program.Cell, *program.Argument:
		return m.value(d.Node())
	}
	if l, ok := d.Body.(*program.Limit); ok {
		return m.sides(l)
	}
	return m.list(d.Body.Operands())
}

// sides are the operands of a limit. One that is never reached is no fault: the
// limit does not arise.
func (m *Machine) sides(l *program.Limit) (any, *Fault) {
	list := make(library.List, len(l.Sides))
	for i, n := range l.Sides {
		v, f := m.value(n)
		if f != nil && !f.never {
			return nil, f
		}
		if list[i] = v; f != nil {
			list[i] = library.Never{}
		}
	}
	return list, nil
}

// Fail is a fault at a place.
func Fail(at message.Span, summary, hint string) *Fault {
	return &Fault{Diagnostic: message.Diagnostic{Span: at, Summary: summary, Hint: hint}}
}
