package report

import (
	"cmp"
	"math"
	"slices"
)

// An Overview is what a builder reads at the field: the whole sheet in short.
type Overview struct {
	Summary  string
	Limits   []Limit   // also of the sheets that it uses: broken ones first, then by headroom
	Dangers  []Caution // of the numbers
	Standing []string  // IDs of the hazards of the things themselves
	Unworked []Failure
}

// Overview is a report in short; the summary is for whoever words it.
func (r *Report) Overview() *Overview {
	o := &Overview{Limits: slices.Concat(r.Limits, r.UsedLimits)}
	slices.SortStableFunc(o.Limits, func(a, b Limit) int {
		return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(a.Room(), b.Room()))
	})
	for _, b := range r.Blocks {
		for _, c := range b.Cautions {
			o.caution(&c)
		}
		o.Unworked = append(o.Unworked, b.Errors...)
	}
	return o
}

func (o *Overview) caution(c *Caution) {
	switch {
	case !c.Grave():
	case c.Kind == OfStanding:
		o.Standing = append(o.Standing, c.ID)
	default:
		o.Dangers = append(o.Dangers, *c)
	}
}

// rank orders limits: broken ones, those not worked, then the kept ones.
func (l *Limit) rank() int {
	switch {
	case isBroken(l):
		return 0
	case l.State != Evaluated:
		return 1
	}
	return 2
}

// Room is the headroom as a share, without bounds where there is none.
func (l *Limit) Room() float64 {
	if l.Margin == nil || l.Margin.Ratio == nil {
		return math.Inf(1)
	}
	return *l.Margin.Ratio
}
