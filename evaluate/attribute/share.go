package attribute

import (
	"fmt"
	"math"
	"math/bits"
	"slices"

	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/units"
)

// MaxAverage is up to how many causes the average over all orders is taken; it
// takes 2^n evaluations of the sheet.
const MaxAverage = 5

// MaxCauses is up to how many causes shares are found at all; it takes 2n.
const MaxCauses = 100

// share gives each changed quantity the shares of the causes.
func (t *tracer) share(changed []report.Difference) {
	n := len(t.elements)
	if n == 0 || n > MaxCauses || t.ctx.Err() != nil || !slices.ContainsFunc(changed, traceable) {
		return
	}
	parts := t.coming
	if n <= MaxAverage {
		parts = t.allOrders
	}
	of := parts(n)
	for i := range changed {
		if d := &changed[i]; traceable(*d) {
			d.Shares = t.shares(of(d.New.Name), d.New)
		}
	}
}

// traceable reports whether a difference is one of numbers.
func traceable(d report.Difference) bool {
	_, a := d.Old.Value.(float64)
	_, b := d.New.Value.(float64)
	return a && b && d.Old.Kind.Dim == d.New.Kind.Dim
}

// number is a quantity's among those of a mixture, NaN for none.
func number(values map[string]float64, name string) float64 {
	if x, ok := values[name]; ok {
		return x
	}
	return math.NaN()
}

// allOrders evaluates the sheet with every part of the causes. What a cause adds is
// averaged over all orders: with s of n causes there before it, the weight is
// s! (n-s-1)! / n!.
func (t *tracer) allOrders(n int) func(name string) []float64 {
	mixtures := make([]map[string]float64, 1<<n)
	for set := range mixtures {
		mixtures[set] = t.mixed(func(i int) bool { return set>>i&1 == 1 })
	}
	return func(name string) []float64 {
		parts := make([]float64, n)
		for i := range parts {
			for set := range mixtures {
				if set>>i&1 == 0 {
					adds := number(mixtures[set|1<<i], name) - number(mixtures[set], name)
					parts[i] += weight(bits.OnesCount(uint(set)), n) * adds
				}
			}
		}
		return parts
	}
}

func weight(s, n int) float64 {
	return factorial(s) * factorial(n-s-1) / factorial(n)
}

func factorial(n int) float64 { return math.Gamma(float64(n + 1)) }

// coming evaluates the sheet with each cause alone, and with all but each. What a
// cause adds is the average of the two, scaled to sum to the whole change.
func (t *tracer) coming(n int) func(name string) []float64 {
	none, all := t.mixed(func(int) bool { return false }), t.mixed(func(int) bool { return true })
	first, last := make([]map[string]float64, n), make([]map[string]float64, n)
	for k := range n {
		first[k] = t.mixed(func(i int) bool { return i == k })
		last[k] = t.mixed(func(i int) bool { return i != k })
	}
	return func(name string) []float64 {
		parts, sum := make([]float64, n), 0.0
		from, to := number(none, name), number(all, name)
		for i := range parts {
			parts[i] = (number(first[i], name) - from + to - number(last[i], name)) / 2
			sum += parts[i]
		}
		for i := range parts {
			parts[i] *= (to - from) / sum
		}
		return parts
	}
}

// shares are parts of a change by their size, those that have none left out; nil
// where the change cannot be shared out.
func (t *tracer) shares(parts []float64, of report.Quantity) []report.Share {
	sum, size := 0.0, 0.0
	for _, p := range parts {
		sum, size = sum+p, size+math.Abs(p)
	}
	if math.IsNaN(sum) || math.IsInf(size, 0) || math.Abs(sum) <= report.Noise*size {
		return nil
	}
	var out []report.Share
	for i, p := range parts {
		if math.Abs(p) > report.Noise*size {
			out = append(out, report.Share{Cause: t.elements[i].Name, Part: p / sum, Amount: p})
		}
	}
	slices.SortStableFunc(out, func(a, b report.Share) int { return compareSize(a.Part, b.Part) })
	if slices.ContainsFunc(out, func(s report.Share) bool { return s.Part < 0 }) {
		amounts(out, of)
	} else {
		percents(out)
	}
	return out
}

// amounts writes shares that work against each other in the quantity's unit, to
// the place at which their sum has its second digit.
func amounts(list []report.Share, of report.Quantity) {
	const most = 6
	unit := show.ReadableUnit(list[0].Amount, of.Unit, of.Kind)
	whole := list[0].Amount / list[0].Part
	for i, s := range list {
		digits := 2 + magnitude(s.Amount) - magnitude(whole)
		list[i].Shown = units.Show(s.Amount, unit, min(max(digits, 1), most))
		if s.Amount > 0 {
			list[i].Shown = "+" + list[i].Shown
		}
	}
}

// magnitude is the power of ten of a number's first digit.
func magnitude(x float64) int { return int(math.Floor(math.Log10(math.Abs(x)))) }

// compareSize puts the larger one first.
func compareSize(a, b float64) int {
	switch x, y := math.Round(math.Abs(a)/report.Noise), math.Round(math.Abs(b)/report.Noise); {
	case x > y:
		return -1
	case x < y:
		return 1
	}
	return 0
}

// percents writes shares in whole per cents that sum to 100: all are rounded
// down, and those that lost most are raised.
func percents(list []report.Share) {
	whole, left := make([]float64, len(list)), 100.0
	order := make([]int, len(list))
	for i, s := range list {
		whole[i] = math.Floor(100 * s.Part)
		left -= whole[i]
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return compareSize(100*list[a].Part-whole[a], 100*list[b].Part-whole[b])
	})
	for i := range int(math.Round(left)) {
		whole[order[i%len(order)]]++
	}
	for i := range list {
		list[i].Shown = fmt.Sprintf("%.0f %%", whole[i])
		if whole[i] == 0 {
			list[i].Shown = "under 1 %"
		}
	}
}
