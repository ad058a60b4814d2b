package generator

import (
	"fmt"
	"math"
	"math/cmplx"

	"inkwing/evaluate/library/model"
)

// DistributionFactorInput is what [DistributionFactor] reads.
type DistributionFactorInput struct {
	Coils  int `range:"[1,200]" help:"evenly spaced round the circle"`
	Poles  int `range:"[2,200]" help:"magnets round the circle, an even number"`
	Phases int `default:"1" range:"[1,3]" help:"1 or 3"`
}

// DistributionFactorResult is how well the coils' voltages add.
type DistributionFactorResult struct {
	Factor        float64 `unit:"1" show:"1"`
	CoilsPerPhase int
	Reversed      int `help:"coils that are connected the other way round"`
	model.Cautions
}

// DistributionFactor is how well evenly spaced coils in series add: the sum of
// their voltages against what they would give in step.
//
// Each coil may be turned over where it adds better so. Three phases: a coil
// goes to the phase and sign of its 60° sector, the origin of the sectors
// chosen so that the phases get equal counts and the factor is largest.
//
// Formula: kd = |Σ ±e^(j·p·θ)|/n, p pole pairs, θ the place of a coil
//
// Validity: the fundamental; like coils.
//
// Source: Deshpande, Electrical Machines, ch. 13; phasor sum
//
// Example:
//
//	good = distribution_factor(9, 12, phases: 3)
//	kd = good.factor
func DistributionFactor(in DistributionFactorInput) (DistributionFactorResult, error) {
	if err := checkCircle(in.Coils, in.Poles, in.Phases); err != nil {
		return DistributionFactorResult{}, err
	}
	groups, err := arrange(in.Coils, in.Poles/2, in.Phases)
	if err != nil {
		return DistributionFactorResult{}, err
	}
	out := DistributionFactorResult{Factor: groups.factor, CoilsPerPhase: in.Coils / in.Phases}
	for _, sign := range groups.sign {
		if sign < 0 {
			out.Reversed++
		}
	}
	coilCountCaution(&out.Cautions, in.Coils, in.Poles/2, in.Phases, groups.factor)
	return out, nil
}

func checkCircle(coils, poles, phases int) error {
	switch {
	case coils < 1:
		return &model.Error{Field: "coils", Summary: "there is no coil", Hint: "give at least one"}
	case poles < 2 || poles%2 != 0:
		return &model.Error{Field: "poles", Summary: "poles come in pairs, north and south in turn", Hint: "give an even number of magnets"}
	case phases != 1 && phases != 3:
		return &model.Error{Field: "phases", Summary: "the coils form one phase or three", Hint: "give 1 or 3"}
	}
	return nil
}

// An arrangement is which coil belongs to which phase and which way round.
type arrangement struct {
	phase, sign []int
	factor      float64
}

// arrange splits coils at even spacing into phases.
func arrange(coils, polePairs, phases int) (arrangement, error) {
	if a, ok := tryArrange(coils, polePairs, phases); ok {
		return a, nil
	}
	return arrangement{}, &model.Error{Field: "coils",
		Summary: fmt.Sprintf("%d coils with %d poles do not split into three like phases", coils, 2*polePairs),
		Hint:    mendCounts(betterCounts(coils, polePairs, phases, 0.8))}
}

// tryArrange finds the arrangement with the largest factor, if there is any.
//
// The coils' voltages are evenly spaced phasors, each as often as any other. A
// half circle or a row of sectors is best begun just before one of them, and
// all of those are alike: it is begun before the first.
func tryArrange(coils, polePairs, phases int) (arrangement, bool) {
	spokes := coils / gcd(coils, polePairs)
	a := arrangement{phase: make([]int, coils), sign: make([]int, coils), factor: factor(spokes, phases)}
	parts := 2 * phases // half circles, or sectors
	step := polePairs / gcd(coils, polePairs)
	for i := range a.sign {
		s := parts * (i * step % spokes) / spokes
		if a.sign[i] = 1 - 2*(s%2); phases == 3 {
			a.phase[i] = sectorPhase[s]
		}
	}
	return a, a.factor > 1e-9
}

// sectorPhase is the phase of each sector of 60°.
var sectorPhase = [6]int{0, 2, 1, 0, 2, 1}

func factor(spokes, phases int) float64 {
	if phases == 3 {
		return threeWays(spokes)
	}
	return oneWay(spokes)
}

// oneWay is the factor of evenly spaced phasors, those in the other half circle
// turned over: a fan of so many different directions over half a turn.
func oneWay(spokes int) float64 {
	if spokes%2 == 0 {
		spokes /= 2
	}
	n := float64(spokes)
	return 1 / (n * math.Sin(math.Pi/(2*n)))
}

// threeWays is the factor where each phasor has the phase and sign of its 60°
// sector; zero unless the three phases are alike.
func threeWays(spokes int) float64 {
	var count [3]int
	var next [7]int
	for s := range 7 {
		next[s] = (s*spokes + 5) / 6 // the first phasor at or past the sector's beginning
	}
	for s := range 6 {
		count[sectorPhase[s]] += next[s+1] - next[s]
	}
	if count[0] != count[1] || count[1] != count[2] || count[0] == 0 {
		return 0
	}
	var sum [3]complex128
	for s := range 6 {
		sum[sectorPhase[s]] += complex(float64(1-2*(s%2)), 0) * fan(next[s], next[s+1], spokes)
	}
	third := cmplx.Rect(1, 2*math.Pi/3)
	if n := float64(count[0]); cmplx.Abs(sum[0]*third-sum[1]) <= 1e-9*n && cmplx.Abs(sum[1]*third-sum[2]) <= 1e-9*n {
		return cmplx.Abs(sum[0]) / n
	}
	return 0
}

// fan is the sum of neighbouring phasors of so many to a turn.
func fan(from, to, spokes int) complex128 {
	half := math.Pi / float64(spokes)
	return cmplx.Rect(math.Sin(half*float64(to-from))/math.Sin(half), half*float64(from+to-1))
}

// betterCounts lists up to four coil counts, the nearest first, whose factor
// reaches a bound.
func betterCounts(coils, polePairs, phases int, bound float64) []int {
	var out []int
	for step := 1; step <= max(coils, 2*polePairs) && len(out) < 4; step++ {
		for _, n := range [2]int{coils - step, coils + step} {
			if n < phases || n%phases != 0 || len(out) == 4 {
				continue
			}
			if factor(n/gcd(n, polePairs), phases) >= bound {
				out = append(out, n)
			}
		}
	}
	return out
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func mendCounts(counts []int) string {
	text := "with these poles try "
	for i, n := range counts {
		if i > 0 {
			text += " or "
		}
		text += fmt.Sprint(n)
	}
	return text + " coils"
}

// coilCountCaution says when coils pull against each other, and which counts do not.
func coilCountCaution(c *model.Cautions, coils, polePairs, phases int, factor float64) {
	if factor >= 0.9 {
		return
	}
	mend := "Change coils or poles."
	if better := betterCounts(coils, polePairs, phases, 0.95); len(better) > 0 {
		mend = "W" + mendCounts(better)[1:] + ", or give unlike coils their own bridges."
	}
	c.Raise(model.Caution{ID: "coil-count-unsuited", Level: model.Warning, Severity: 1 - factor,
		Summary: "Over {2} poles only {1} of {0} coils' voltage adds up.",
		Values: []model.Value{model.In(float64(coils), "1"), model.In(100*factor, "%"),
			model.In(float64(2*polePairs), "1")},
		Why:    "The coils do not stand at like places over the magnets, so their voltages peak at different times. Unlike coils may have bridges of their own.",
		Hint:   mend,
		Source: "phasor sum; Deshpande, Electrical Machines, ch. 13"})
}

// WindingFactorInput is what [WindingFactor] reads.
type WindingFactorInput struct {
	Slots int `range:"[3,400]" help:"one coil round each tooth"`
	Poles int `range:"[2,400]" help:"an even number"`
}

// WindingFactorResult is the winding factor alone.
type WindingFactorResult struct {
	Factor float64 `unit:"1"`
}

// WindingFactor is that of a three-phase winding with a coil round every tooth
// of an iron core, for comparison with tables.
//
// Formula: kw = kd·sin(π·p/(2·s)), kd the distribution_factor of the slots
//
// Letters: p poles; s slots; kw = result.
//
// Validity: the fundamental; slotted machines only (coils between magnets
// without iron have their pitch in the flux).
//
// Source: Skaar, Krøvel and Nilssen, ICEM 2006; Cros and Viarouge 2002
//
// Example:
//
//	kw = winding_factor(12, 14)
func WindingFactor(in WindingFactorInput) (WindingFactorResult, error) {
	if in.Poles < 2 || in.Poles%2 != 0 {
		return WindingFactorResult{}, checkCircle(1, in.Poles, 3)
	}
	a, ok := tryArrange(in.Slots, in.Poles/2, 3)
	if !ok {
		return WindingFactorResult{}, &model.Error{Field: "slots",
			Summary: fmt.Sprintf("%d slots with %d poles do not split into three like phases", in.Slots, in.Poles),
			Hint:    mendCounts(betterCounts(in.Slots, in.Poles/2, 3, 0.8))}
	}
	pitch := math.Abs(math.Sin(math.Pi * float64(in.Poles) / float64(2*in.Slots)))
	return WindingFactorResult{a.factor * pitch}, nil
}
