package equation

import (
	"fmt"
	"maps"
	"math"
	"slices"
)

// mostWays bounds the ways to choose between definitions that are tried.
const mostWays = 32

// Solve adds the letters that clauses define by the way, as Vb = Ve + I·R does. Where
// several clauses define one, each for its case, those are taken by which most of what was
// given holds, within a part; the first of such.
func Solve(clauses []Clause, letters map[string]Value, part float64) map[string]Value {
	several := severally(clauses, letters)
	ways := 1
	for _, at := range several {
		ways *= len(at)
	}
	var best map[string]Value
	most := -1
	for way := range min(ways, mostWays) {
		of := solveBy(clauses, letters, passedOver(several, way))
		if n := holding(clauses, letters, of, part); n > most {
			best, most = of, n
		}
	}
	return best
}

// severally are the places of the clauses that define one letter, of letters with several.
func severally(clauses []Clause, letters map[string]Value) [][]int {
	at := map[string][]int{}
	var names []string
	for i := range clauses {
		name := clauses[i].Defines()
		if _, has := letters[name]; name == "" || has {
			continue
		}
		if at[name] = append(at[name], i); len(at[name]) == 2 {
			names = append(names, name)
		}
	}
	list := make([][]int, len(names))
	for i, name := range names {
		list[i] = at[name]
	}
	return list
}

// passedOver are the clauses that do not define in a way to choose one of each list.
func passedOver(several [][]int, way int) map[int]bool {
	over := map[int]bool{}
	for _, list := range several {
		chosen := way % len(list)
		way /= len(list)
		for i, at := range list {
			over[at] = i != chosen
		}
	}
	return over
}

func solveBy(clauses []Clause, letters map[string]Value, over map[int]bool) map[string]Value {
	of := maps.Clone(letters)
	for found := true; found; {
		found = false
		for i := range clauses {
			c := &clauses[i]
			name := c.Defines()
			if _, has := of[name]; name == "" || has || over[i] {
				continue
			}
			if v, ok := c.sides[len(c.sides)-1].value(of); ok && v.isFinite() {
				of[name], found = v, true
			}
		}
	}
	return of
}

// holding is how many equations hold that define no letter by the way.
func holding(clauses []Clause, letters, of map[string]Value, part float64) (n int) {
	for i := range clauses {
		name := clauses[i].Defines()
		if _, given := letters[name]; (name == "" || given) && clauses[i].Holds(of, part) {
			n++
		}
	}
	return n
}

func (v Value) isFinite() bool {
	return !slices.ContainsFunc(v.Numbers, func(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) })
}

// Worked reports whether all of an equation has values, and of one dimension.
func (c *Clause) Worked(of map[string]Value) bool {
	_, ok := c.worked(of)
	return ok
}

func (c *Clause) worked(of map[string]Value) (sides []Value, ok bool) {
	for i, side := range c.sides {
		v, ok := side.value(of)
		if !ok || !v.isFinite() || len(v.Numbers) == 0 {
			return nil, false
		}
		if i > 0 {
			if _, same := common(v, sides[0]); !same {
				return nil, false
			}
		}
		sides = append(sides, v)
	}
	return sides, len(sides) > 0
}

// Holds reports whether an equation is true of the values, but for a part of the
// greatest summand in it.
func (c *Clause) Holds(of map[string]Value, part float64) bool {
	sides, ok := c.worked(of)
	if !ok {
		return false
	}
	for i, sign := range c.signs {
		near := part * math.Max(greatest(c.sides[i], of), greatest(c.sides[i+1], of))
		test := func(x, y float64) float64 {
			if related(x, y, sign, near) {
				return 1
			}
			return 0
		}
		v, ok := together(sides[i], sides[i+1], sides[i].Dim, test)
		if !ok || slices.Contains(v.Numbers, 0) {
			return false
		}
	}
	return true
}

func related(x, y float64, sign string, near float64) bool {
	switch sign {
	case "=":
		return math.Abs(x-y) <= near
	case "≈":
		return math.Abs(x-y) <= 0.1*math.Max(math.Abs(x), math.Abs(y))
	case "≤", "<":
		return x <= y+near
	}
	return x >= y-near
}

// greatest is the size of the greatest summand of a side.
func greatest(n node, of map[string]Value) float64 {
	if b, ok := n.(binary); ok && (b.op == "+" || b.op == "-") {
		return math.Max(greatest(b.x, of), greatest(b.y, of))
	}
	if m, ok := n.(negative); ok {
		return greatest(m.x, of)
	}
	v, _ := n.value(of)
	most := 0.0
	for _, x := range v.Numbers {
		most = math.Max(most, math.Abs(x))
	}
	return most
}

// Sides are the numbers of an equation's sides in coherent SI, for who looks for a
// mistake in it.
func (c *Clause) Sides(of map[string]Value) string {
	sides, _ := c.worked(of)
	return fmt.Sprint(sides)
}
