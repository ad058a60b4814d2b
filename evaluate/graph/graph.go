// Package graph orders what depends on what.
//
// [New] takes the dependences of numbered nodes; [Graph.Order] lists the nodes
// so that each comes after what it needs, with the cycles set apart;
// [Graph.Between] is the part between some inputs and some outputs, which is all
// that need be worked again when the inputs change.
package graph

import (
	"cmp"
	"maps"
	"slices"
)

// A Graph is numbered nodes and what each needs.
type Graph struct {
	needs  [][]int
	users  [][]int // the other way round
	order  []int
	rank   []int // of a node in that order
	cycles [][]int
	kept   kept
}

// New makes a graph of len(needs) nodes, node i needing needs[i].
func New(needs [][]int) *Graph {
	g := &Graph{needs: needs, users: turned(needs), rank: make([]int, len(needs))}
	g.sort()
	for i, v := range g.order {
		g.rank[v] = i
	}
	return g
}

// Order lists all nodes, needs first. Nodes of a cycle stand side by side.
func (g *Graph) Order() []int { return g.order }

// Cycles lists the nodes of each cycle, each node needing the next and the
// last the first where the cycle is simple.
func (g *Graph) Cycles() [][]int { return g.cycles }

// sort is Tarjan's strongly connected components, with a stack of its own:
// a chain of definitions may be as long as the file.
func (g *Graph) sort() {
	n := len(g.needs)
	t := &tour{g: g, index: make([]int, n), low: make([]int, n), onStack: make([]bool, n)}
	for root := range n {
		if t.index[root] == 0 {
			t.from(root)
		}
	}
}

// A tour goes through a graph in depth.
type tour struct {
	g          *Graph
	index, low []int // when a node was opened, from 1, and the earliest that it leads to
	opened     int
	onStack    []bool
	stack      []int
	frames     []frame
}

// A frame is a node that is open, and how many of its needs have been followed.
type frame struct{ node, edge int }

func (t *tour) from(root int) {
	t.open(root)
	for len(t.frames) > 0 {
		f := &t.frames[len(t.frames)-1]
		if needs := t.g.needs[f.node]; f.edge < len(needs) {
			f.edge++
			t.follow(f.node, needs[f.edge-1])
			continue
		}
		t.leave(f.node)
	}
}

func (t *tour) open(v int) {
	t.opened++
	t.index[v], t.low[v] = t.opened, t.opened
	t.stack = append(t.stack, v)
	t.onStack[v] = true
	t.frames = append(t.frames, frame{v, 0})
}

func (t *tour) follow(v, need int) {
	switch {
	case t.index[need] == 0:
		t.open(need)
	case t.onStack[need]:
		t.low[v] = min(t.low[v], t.index[need])
	}
}

// leave closes a component where its first node is left.
func (t *tour) leave(v int) {
	t.frames = t.frames[:len(t.frames)-1]
	if len(t.frames) > 0 {
		u := t.frames[len(t.frames)-1].node
		t.low[u] = min(t.low[u], t.low[v])
	}
	if t.low[v] != t.index[v] {
		return
	}
	at := len(t.stack) - 1
	for t.stack[at] != v {
		at--
	}
	t.g.close(slices.Clone(t.stack[at:]))
	for _, w := range t.stack[at:] {
		t.onStack[w] = false
	}
	t.stack = t.stack[:at]
}

// close takes a finished component, which is a cycle if it has two nodes or
// one that needs itself.
func (g *Graph) close(part []int) {
	g.order = append(g.order, part...)
	if len(part) > 1 || slices.Contains(g.needs[part[0]], part[0]) {
		g.cycles = append(g.cycles, g.walk(part))
	}
}

// walk finds a shortest way from the component's first node back to itself.
func (g *Graph) walk(part []int) []int {
	in := make(map[int]bool, len(part))
	for _, v := range part {
		in[v] = true
	}
	start := slices.Min(part)
	from := map[int]int{}
	queue := []int{start}
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		for _, w := range g.needs[v] {
			if w == start {
				return back(from, start, v)
			}
			if _, seen := from[w]; !seen && in[w] {
				from[w] = v
				queue = append(queue, w)
			}
		}
	}
	panic("graph: component without a cycle")
}

func back(from map[int]int, start, v int) []int {
	path := []int{v}
	for v != start {
		v = from[v]
		path = append(path, v)
	}
	slices.Reverse(path)
	return path
}

// turned is a list of needs by what is needed.
func turned(needs [][]int) [][]int {
	users := make([][]int, len(needs))
	for v, list := range needs {
		for _, w := range list {
			users[w] = append(users[w], v)
		}
	}
	return users
}

// Between lists, in order, the nodes that outputs need and that need some input,
// the inputs themselves left out. It looks from both sides at once, edge by edge,
// and so at not much more than the smaller of the two: most inputs touch little of
// a sheet, and most outputs need little of it. Where both are large and the same
// inputs are asked for again and again, what is above them is kept.
func (g *Graph) Between(inputs, outputs []int) []int {
	if len(inputs) == 0 || len(outputs) == 0 {
		return nil
	}
	if above := g.kept.above(inputs); above != nil {
		return g.within(above.has, inputs, outputs)
	}
	above, below := search{edges: g.users, from: inputs}, search{edges: g.needs, from: outputs}
	steps := 0
	for above.step() && below.step() {
		steps++
	}
	if g.kept.pays(inputs, steps, len(g.needs)) {
		for above.step() {
		}
		g.kept.put(inputs, above.seen, len(g.needs))
	}
	if above.done() {
		return g.within(func(v int) bool { return above.seen[v] }, inputs, outputs)
	}
	return g.upwards(below, inputs)
}

// within lists the nodes that outputs need, by way of such as are above the inputs.
func (g *Graph) within(above func(int) bool, inputs, outputs []int) []int {
	found := search{edges: g.needs, from: outputs, within: above}
	for found.step() {
	}
	return g.sorted(found.seen, inputs)
}

// upwards lists those of the nodes below the outputs that need an input.
func (g *Graph) upwards(below search, inputs []int) []int {
	touched := map[int]bool{}
	for _, v := range inputs {
		touched[v] = true
	}
	for _, v := range g.sorted(below.seen, inputs) {
		if slices.ContainsFunc(g.needs[v], func(w int) bool { return touched[w] }) {
			touched[v] = true
		}
	}
	return g.sorted(touched, inputs)
}

// Above is some nodes and all that need one of them.
func (g *Graph) Above(nodes []int) map[int]bool {
	s := search{edges: g.users, from: nodes}
	for s.step() {
	}
	return s.seen
}

// Below is some nodes and all that they need.
func (g *Graph) Below(nodes []int) map[int]bool {
	s := search{edges: g.needs, from: nodes}
	for s.step() {
	}
	return s.seen
}

// sorted is a set of nodes in order, without some of them.
func (g *Graph) sorted(set map[int]bool, without []int) []int {
	for _, v := range without {
		delete(set, v)
	}
	list := slices.Collect(maps.Keys(set))
	slices.SortFunc(list, func(a, b int) int { return cmp.Compare(g.rank[a], g.rank[b]) })
	return list
}

// A search goes from node to node, perhaps within a set only.
type search struct {
	edges  [][]int
	from   []int // where it still has to begin
	seen   map[int]bool
	within func(int) bool
	queue  []frame
}

func (s *search) done() bool { return len(s.queue)+len(s.from) == 0 }

func (s *search) open(v int) {
	if s.seen[v] || s.within != nil && !s.within(v) {
		return
	}
	if s.seen == nil {
		s.seen = map[int]bool{}
	}
	s.seen[v] = true
	s.queue = append(s.queue, frame{v, 0})
}

// step follows one more edge; false where there is none.
func (s *search) step() bool {
	for len(s.queue) > 0 {
		last := &s.queue[len(s.queue)-1]
		if list := s.edges[last.node]; last.edge < len(list) {
			last.edge++
			s.open(list[last.edge-1])
			return true
		}
		s.queue = s.queue[:len(s.queue)-1]
	}
	if len(s.from) == 0 {
		return false
	}
	s.open(s.from[0])
	s.from = s.from[1:]
	return true
}
