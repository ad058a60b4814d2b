package chart

import "math"

// manyPoints is where a line is thinned.
const manyPoints = 1500

// thinLine leaves out what cannot be seen of a long line: of the places that
// follow one another in a column a unit wide, the highest and the lowest stay,
// so that no peak is lost, and so do the first and the last of all.
func thinLine(at []place) []place {
	if len(at) <= manyPoints {
		return at
	}
	out := []place{at[0]}
	for from := 0; from < len(at); {
		to := from + 1
		for to < len(at) && math.Floor(at[to].x) == math.Floor(at[from].x) {
			to++
		}
		out = append(out, peaks(at[from:to])...)
		from = to
	}
	return append(out, at[len(at)-1])
}

// peaks are the lowest and the highest of some places, in their order.
func peaks(run []place) []place {
	low, high := 0, 0
	for i, p := range run {
		if p.y < run[low].y {
			low = i
		}
		if p.y > run[high].y {
			high = i
		}
	}
	if low == high {
		return run[low : low+1]
	}
	return []place{run[min(low, high)], run[max(low, high)]}
}

// cell is how near two points must be for one to hide the other.
const cell = 2.0

// thinPoints leaves out the points that lie on others, but none of the
// outermost ones.
func thinPoints(at []place) []place {
	if len(at) <= manyPoints {
		return at
	}
	keep := outermost(at)
	seen := map[place]bool{}
	var out []place
	for i, p := range at {
		on := place{math.Floor(p.x / cell), math.Floor(p.y / cell)}
		if !seen[on] || keep[i] {
			out = append(out, p)
		}
		seen[on] = true
	}
	return out
}

// outermost are the numbers of the places that lie farthest out.
func outermost(at []place) map[int]bool {
	var left, right, top, bottom int
	for i, p := range at {
		if p.x < at[left].x {
			left = i
		}
		if p.x > at[right].x {
			right = i
		}
		if p.y < at[top].y {
			top = i
		}
		if p.y > at[bottom].y {
			bottom = i
		}
	}
	return map[int]bool{left: true, right: true, top: true, bottom: true}
}
