package study

import (
	"cmp"
	"math"
	"slices"

	"inkwing/evaluate/numeric"
	"inkwing/evaluate/program"
)

// finish notes what the builder should know of the best place.
func (t *optimising) finish(best numeric.Minimum) {
	found := &Finding{Goal: t.sign * best.Value, Binds: t.binds(best)}
	for i, a := range t.box {
		o := t.x.Over[i]
		if o.In == nil && a.High > a.Low && (best.X[i] == a.Low || best.X[i] == a.High) {
			found.Edges = append(found.Edges, o.Name)
		}
	}
	if len(best.Others) > 0 && len(t.box) == 1 {
		other := best.Others[0]
		if v, isNumber := t.value(other.X).(float64); isNumber && t.x.Over[0].In == nil {
			found.Next = &Next{v, t.sign * other.Value}
		}
	}
	t.m.Keep(t.x, found)
}

// binds are the limits without which it would be better: those that refused the
// nearest of the places that would have been, all of them where steps make several
// as near.
func (t *optimising) binds(best numeric.Minimum) []*program.Def {
	var list []*program.Def
	nearest := math.Inf(1)
	for _, r := range t.seen() {
		if !(r.goal < best.Value) {
			continue
		}
		d := t.distance(r.x, best.X)
		if d < nearest {
			nearest, list = d, nil
		}
		if d == nearest {
			list = append(list, r.broken...)
		}
	}
	slices.SortStableFunc(list, func(a, b *program.Def) int { return cmp.Compare(a.ID, b.ID) })
	return slices.Compact(list)
}

// distance is measured in ranges.
func (t *optimising) distance(a, b []float64) float64 {
	d := 0.0
	for i, axis := range t.box {
		if wide := axis.High - axis.Low; wide > 0 {
			d += math.Abs(a[i]-b[i]) / wide
		}
	}
	return d
}
