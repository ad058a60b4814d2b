package report

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"inkwing/units"
)

// A Comparison is what is otherwise in one report than in another.
type Comparison struct {
	Broken, Mended []LimitChange // limits that hold no longer, or hold again
	Doubtful       []LimitChange // limits that hold no longer for all of an interval
	Failing        []Failure     // lines that could be evaluated, or were not there
	Working        []Failure     // lines whose error is gone
	Changed        []Difference  // by size, those without a share last
	Added, Gone    []Quantity
	Verdicts       []VerdictChange
	Tables         []TableChange
}

// A LimitChange is a limit before and after; Old is nil for a new limit, New
// for one that is gone.
type LimitChange struct{ Old, New *Limit }

// A Difference is a quantity that came to something else.
type Difference struct {
	Old, New Quantity
	Percent  string  // "+17 %"; empty where a share means nothing
	Shares   []Share // by what it changed, of a [Trace]; they sum to 1
	share    float64 // of the old value; NaN where that means nothing
}

// A Share is what one changed input has of a quantity's change. Beside another
// that works against it, it can be more than all, or negative: such shares are
// shown as amounts.
type Share struct {
	Cause  string // the name of a [Cause]
	Part   float64
	Amount float64 // in coherent SI; those of one quantity sum to its change
	Shown  string  // "80 %", summing to 100 %; or "+4.6 g"
}

// Noise is the part of a value that rounding may change while it is evaluated in
// another order: far above a float64's last digit, far below what is shown.
const Noise = 1e-9

// Compare says what changed from one report of a sheet to another: by value and
// not by text, so that another unit is no change.
func Compare(old, new *Report) *Comparison {
	c := &Comparison{}
	c.quantities(old, new)
	c.limits(old, new)
	c.tables(old, new)
	c.Failing, c.Working = without(points(new), points(old)), without(points(old), points(new))
	return c
}

// Empty reports whether nothing changed.
func (c *Comparison) Empty() bool {
	return len(c.Broken)+len(c.Mended)+len(c.Doubtful)+len(c.Failing)+len(c.Working)+
		len(c.Changed)+len(c.Added)+len(c.Gone)+len(c.Verdicts)+len(c.Tables) == 0
}

func (c *Comparison) quantities(old, new *Report) {
	before, now := byName(old), byName(new)
	for _, q := range new.Quantities {
		was, ok := before.find(q)
		switch {
		case !ok:
			c.Added = append(c.Added, q)
		case !sameQuantity(was, q):
			c.Changed = append(c.Changed, difference(was, q))
		}
	}
	for _, q := range old.Quantities {
		if _, ok := now.find(q); !ok {
			c.Gone = append(c.Gone, q)
		}
	}
	slices.SortStableFunc(c.Changed, func(a, b Difference) int { return cmp.Compare(a.size(), b.size()) })
}

// names finds a report's quantities.
type names struct {
	all     map[string]*Quantity
	records map[string]bool
}

func byName(r *Report) names {
	n := names{make(map[string]*Quantity, len(r.Quantities)), map[string]bool{}}
	for i := range r.Quantities {
		q := &r.Quantities[i]
		n.all[q.Name] = q
		if record, _, ok := strings.Cut(q.Name, "."); ok {
			n.records[record] = true
		}
	}
	return n
}

// find is what stands under a quantity's name. A record has its fields only
// where it is evaluated, else it stands there itself.
func (n names) find(q Quantity) (Quantity, bool) {
	if same, ok := n.all[q.Name]; ok {
		return *same, true
	}
	if record, _, ok := strings.Cut(q.Name, "."); ok {
		if whole, ok := n.all[record]; ok {
			return *whole, whole.State != Evaluated
		}
		return Quantity{}, false
	}
	if q.State != Evaluated && n.records[q.Name] {
		return Quantity{Name: q.Name, Shown: "worked"}, true
	}
	return Quantity{}, false
}

// size orders differences: the largest share first, what has none last.
func (d Difference) size() float64 {
	if math.IsNaN(d.share) {
		return 0
	}
	return -math.Round(math.Abs(d.share) / Noise)
}

func difference(old, new Quantity) Difference {
	d := Difference{Old: old, New: new, share: math.NaN()}
	a, okA := old.Value.(float64)
	b, okB := new.Value.(float64)
	if okA && okB && old.Kind.Dim == new.Kind.Dim && !old.Point && !new.Point && a != 0 {
		d.share = (b - a) / math.Abs(a)
		d.Percent = Percent(d.share)
	}
	return d
}

// Percent writes a share as a change: "+17 %"; empty for none.
func Percent(share float64) string {
	part := 100 * share
	if math.IsInf(part, 0) || math.IsNaN(part) || math.Abs(share) <= Noise {
		return ""
	}
	digits := max(2, len(strconv.Itoa(int(min(math.Abs(part), 1e9)))))
	text := units.Number(part, digits)
	if part > 0 {
		text = "+" + text
	}
	return text + " %"
}

// intervalNoise is the part of an interval that may come and go with the steps by
// which it is evaluated: below the two digits that are shown of it.
const intervalNoise = 1e-3

func sameQuantity(a, b Quantity) bool {
	return a.State == b.State && a.alike(b) && SameValue(a.Value, b.Value) &&
		math.Abs(a.Uncertainty.Expanded-b.Uncertainty.Expanded) <= intervalNoise*max(a.Uncertainty.Expanded, b.Uncertainty.Expanded)
}

// SameValue reports whether two values are one but for noise.
func SameValue(a, b any) bool {
	x, okA := a.(float64)
	y, okB := b.(float64)
	if !okA || !okB {
		return a == b
	}
	return x == y || math.Abs(x-y) <= Noise*max(math.Abs(x), math.Abs(y))
}

// limits compares them by their text, one written twice in its order.
func (c *Comparison) limits(old, new *Report) {
	type set struct{ of, text string }
	before := map[set][]*Limit{}
	for _, l := range old.allLimits() {
		key := set{l.Of, l.Text}
		before[key] = append(before[key], l)
	}
	for _, l := range new.allLimits() {
		x, key := LimitChange{New: l}, set{l.Of, l.Text}
		if same := before[key]; len(same) > 0 {
			x.Old, before[key] = same[0], same[1:]
		}
		c.limit(x)
	}
	for _, l := range old.allLimits() {
		if slices.Contains(before[set{l.Of, l.Text}], l) {
			c.limit(LimitChange{Old: l})
		}
	}
}

// allLimits are a report's own limits, then those of what it uses.
func (r *Report) allLimits() (list []*Limit) {
	for i := range r.Limits {
		list = append(list, &r.Limits[i])
	}
	for i := range r.UsedLimits {
		list = append(list, &r.UsedLimits[i])
	}
	return list
}

func (c *Comparison) limit(x LimitChange) {
	was, is := isBroken(x.Old), isBroken(x.New)
	switch {
	case is && !was:
		c.Broken = append(c.Broken, x)
	case was && !is && (x.New == nil || x.New.State == Evaluated):
		c.Mended = append(c.Mended, x)
	}
	if !is && inDoubt(x.New) && !inDoubt(x.Old) {
		c.Doubtful = append(c.Doubtful, x)
	}
}

func inDoubt(l *Limit) bool { return l != nil && l.State == Evaluated && l.Straddle }

func isBroken(l *Limit) bool { return l != nil && l.State == Evaluated && !l.Holds }

func points(r *Report) []Failure {
	var all []Failure
	for _, b := range r.Blocks {
		all = append(all, b.Errors...)
	}
	return all
}

// without is the points of a list that another one does not hold. Places do not
// count, since a line may have moved; nor does what is said of a line, which names the
// numbers that it failed with.
func without(list, other []Failure) []Failure {
	left := map[string]int{}
	for _, p := range other {
		left[p.Line]++
	}
	var out []Failure
	for _, p := range list {
		if left[p.Line] > 0 {
			left[p.Line]--
			continue
		}
		out = append(out, p)
	}
	return out
}
