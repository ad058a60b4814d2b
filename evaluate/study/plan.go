package study

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/numeric"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// A plan is what a study works again at each of its points.
type plan struct {
	m       *run.Machine
	at      program.Node
	inputs  []*program.Def
	outputs []program.Node
	limits  []*program.Def
}

// newPlan is a study's plan; a limit in error is left out.
func newPlan(m *run.Machine, n program.Node, def *program.Def, over []program.Variable, outputs ...program.Node) *plan {
	p := &plan{m: m, at: n, outputs: outputs}
	for _, o := range over {
		p.inputs = append(p.inputs, o.Def)
	}
	for _, l := range def.Body.(*program.Study).Limits {
		if l.OK() {
			p.limits = append(p.limits, l)
		}
	}
	return p
}

// A point is what a plan came to at one place.
type point struct {
	values []any          // of the outputs; nil where there is none
	faults []*run.Fault   // why not
	broken []*program.Def // limits that do not hold
	silent []*program.Def // limits that could not be worked
}

// ok reports whether every output was worked.
func (p *point) ok() bool {
	for _, f := range p.faults {
		if f != nil {
			return false
		}
	}
	return true
}

// A cutting is a subgraph for a plan, which evaluates one point after another.
type cutting struct {
	*plan
	part  *run.Subgraph
	begun int
}

func (p *plan) cut() *cutting {
	var outputs []int
	for _, n := range p.outputs {
		outputs = append(outputs, program.Refs(n)...)
	}
	for _, l := range p.limits {
		outputs = append(outputs, l.ID)
	}
	s := p.m.Subgraph(p.inputs, outputs)
	s.OnlyFor(p.outputs)
	return &cutting{p, s, s.Steps()}
}

// work works one point.
func (c *cutting) work(inputs []any) point {
	c.part.Evaluate(inputs)
	p := point{values: make([]any, len(c.outputs)), faults: make([]*run.Fault, len(c.outputs))}
	for i, n := range c.outputs {
		p.values[i], p.faults[i] = c.part.Node(n)
	}
	for _, l := range c.limits {
		operands, worked := c.part.Value(l).(library.List)
		switch {
		case !worked:
			p.silent = append(p.silent, l)
		case !run.Holds(l.Body.(*program.Limit).Ops, operands):
			p.broken = append(p.broken, l)
		}
	}
	return p
}

// steps is the work done since the cut.
func (c *cutting) steps() int { return c.part.Steps() - c.begun }

// all works many points side by side, on as many goroutines as there are cores,
// each with a subgraph of its own. The answer does not depend on how many.
func (p *plan) all(n int, inputs func(i int) []any) ([]point, *run.Fault) {
	points := make([]point, n)
	cuts := make([]*cutting, min(cores(), n))
	for w := range cuts {
		cuts[w] = p.cut()
	}
	far := p.m.Points()
	far.Begin(n)
	numeric.Parallel(len(cuts), n, func(w, i int) {
		points[i] = cuts[w].work(inputs(i))
		far.Worked()
	})
	for _, c := range cuts {
		p.m.Charge(c.steps())
	}
	return points, p.m.Afford(p.at)
}
