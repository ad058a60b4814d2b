// Package graph orders what depends on what.
//
// [New] takes the dependences of numbered nodes; [Graph.Order] lists the nodes
// so that each comes after what it needs, with the circles set apart;
// [Graph.Slice] is the part between some inputs and some outputs, which is all
// that need be worked again when the inputs change.
package graph

import "slices"

// A Graph is numbered nodes and what each needs.
type Graph struct {
	needs   [][]int
	order   []int
	circles [][]int
}

// New makes a graph of len(needs) nodes, node i needing needs[i].
func New(needs [][]int) *Graph {
	g := &Graph{needs: needs}
	g.sort()
	return g
}

// Order lists all nodes, needs first. Nodes of a circle stand side by side.
func (g *Graph) Order() []int { return g.order }

// Circles lists the nodes of each circle, each node needing the next and the
// last the first where the circle is simple.
func (g *Graph) Circles() [][]int { return g.circles }

// sort is Tarjan's strongly connected components, with a stack of its own:
// a chain of definitions may be as long as the file.
func (g *Graph) sort() {
	n := len(g.needs)
	index, low := make([]int, n), make([]int, n)
	onStack := make([]bool, n)
	var stack []int
	next := 1
	type frame struct{ node, edge int }
	var frames []frame
	open := func(v int) {
		index[v], low[v] = next, next
		next++
		stack = append(stack, v)
		onStack[v] = true
		frames = append(frames, frame{v, 0})
	}
	for root := range n {
		if index[root] != 0 {
			continue
		}
		open(root)
		for len(frames) > 0 {
			f := &frames[len(frames)-1]
			v := f.node
			if f.edge < len(g.needs[v]) {
				w := g.needs[v][f.edge]
				f.edge++
				if index[w] == 0 {
					open(w)
				} else if onStack[w] {
					low[v] = min(low[v], index[w])
				}
				continue
			}
			frames = frames[:len(frames)-1]
			if len(frames) > 0 {
				u := frames[len(frames)-1].node
				low[u] = min(low[u], low[v])
			}
			if low[v] == index[v] {
				at := slices.Index(stack, v)
				if at < 0 {
					panic("graph: component lost")
				}
				g.close(slices.Clone(stack[at:]))
				for _, w := range stack[at:] {
					onStack[w] = false
				}
				stack = stack[:at]
			}
		}
	}
}

// close takes a finished component, which is a circle if it has two nodes or
// one that needs itself.
func (g *Graph) close(part []int) {
	g.order = append(g.order, part...)
	if len(part) > 1 || slices.Contains(g.needs[part[0]], part[0]) {
		g.circles = append(g.circles, g.walk(part))
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
	panic("graph: component without a circle")
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

// Slice lists, in order, the nodes that outputs need and that need some input,
// the inputs themselves left out.
func (g *Graph) Slice(inputs, outputs []int) []int {
	needed := g.reach(outputs)
	touched := make(map[int]bool, len(inputs))
	for _, v := range inputs {
		touched[v] = true
	}
	var slice []int
	for _, v := range g.order {
		if !needed[v] || touched[v] {
			continue
		}
		if slices.ContainsFunc(g.needs[v], func(w int) bool { return touched[w] }) {
			touched[v] = true
			slice = append(slice, v)
		}
	}
	return slice
}

func (g *Graph) reach(from []int) map[int]bool {
	seen := make(map[int]bool)
	queue := slices.Clone(from)
	for len(queue) > 0 {
		v := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if seen[v] {
			continue
		}
		seen[v] = true
		queue = append(queue, g.needs[v]...)
	}
	return seen
}
