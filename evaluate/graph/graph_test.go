package graph

import (
	"maps"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestOrder(t *testing.T) {
	g := New([][]int{{1, 2}, {2}, {}, {0}})
	if got := g.Order(); !slices.Equal(got, []int{2, 1, 0, 3}) {
		t.Errorf("order %v", got)
	}
	if len(g.Cycles()) != 0 {
		t.Errorf("cycles %v", g.Cycles())
	}
}

func TestCycles(t *testing.T) {
	g := New([][]int{{1}, {2}, {0}, {3}, {0}})
	if got := g.Cycles(); len(got) != 2 || !slices.Equal(got[0], []int{0, 1, 2}) || !slices.Equal(got[1], []int{3}) {
		t.Errorf("cycles %v", got)
	}
}

func TestBetween(t *testing.T) {
	// 0 and 1 are inputs; 2 needs 0, 3 needs 1, 4 needs 2 and 3, 5 needs 2.
	g := New([][]int{{}, {}, {0}, {1}, {2, 3}, {2}})
	for _, c := range []struct{ inputs, outputs, want []int }{
		{[]int{0}, []int{4}, []int{2, 4}},
		{[]int{1}, []int{4}, []int{3, 4}},
		{[]int{0}, []int{3}, nil},
		{[]int{0, 1}, []int{4, 5}, []int{2, 3, 4, 5}},
		{[]int{2}, []int{2}, nil},
	} {
		if got := g.Between(c.inputs, c.outputs); !slices.Equal(got, c.want) {
			t.Errorf("Between(%v, %v) = %v, want %v", c.inputs, c.outputs, got, c.want)
		}
	}
}

func TestAboveAndBelow(t *testing.T) {
	g := New([][]int{{}, {}, {0}, {1}, {2, 3}, {2}})
	keys := func(set map[int]bool) []int { return slices.Sorted(maps.Keys(set)) }
	if got := keys(g.Below([]int{5, 3})); !slices.Equal(got, []int{0, 1, 2, 3, 5}) {
		t.Errorf("below 5 and 3: %v", got)
	}
	if got := keys(g.Above([]int{3})); !slices.Equal(got, []int{3, 4}) {
		t.Errorf("above 3: %v", got)
	}
}

// TestRandomGraphs holds the order to its meaning: whatever a node needs stands
// before it, and the part between an input and an output is exactly that.
func TestRandomGraphs(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		n := 1 + random.IntN(30)
		needs := make([][]int, n)
		for i := range needs {
			for j := range i {
				if random.IntN(4) == 0 {
					needs[i] = append(needs[i], j)
				}
			}
		}
		g := New(needs)
		place := make([]int, n)
		for at, v := range g.Order() {
			place[v] = at
		}
		for v, list := range needs {
			for _, w := range list {
				if place[w] > place[v] {
					t.Fatalf("%d needs %d, which comes later", v, w)
				}
			}
		}
		in := random.IntN(n)
		for range 5 { // by the third time what is above is kept
			out := random.IntN(n)
			list := g.Between([]int{in}, []int{out})
			for v := range n {
				between := v != in && reaches(needs, v, in) && reaches(needs, out, v)
				if between != slices.Contains(list, v) {
					t.Fatalf("from %d to %d: node %d", in, out, v)
				}
			}
		}
	}
}

// BenchmarkBetween asks for what lies between one input, on which half of the nodes hang,
// and each of them, of which each needs the other half, too.
func BenchmarkBetween(b *testing.B) {
	const n = 5000
	needs := make([][]int, 2*n+1)
	for i := 1; i < n; i++ {
		needs[i] = []int{i - 1}
	}
	for i := n + 1; i <= 2*n; i++ {
		needs[i] = []int{n - 1, n}
	}
	for b.Loop() {
		g := New(needs)
		for out := n + 1; out <= 2*n; out++ {
			if len(g.Between([]int{n}, []int{out})) != 1 {
				b.Fatal("not the one node")
			}
		}
	}
}

// TestBetweenNothing has no inputs, or no outputs.
func TestBetweenNothing(t *testing.T) {
	g := New([][]int{nil, {0}, {1}})
	if list := append(g.Between(nil, []int{2}), g.Between([]int{0}, nil)...); len(list) > 0 {
		t.Errorf("got %v", list)
	}
}

func reaches(needs [][]int, from, to int) bool {
	return from == to || slices.ContainsFunc(needs[from], func(v int) bool { return reaches(needs, v, to) })
}
