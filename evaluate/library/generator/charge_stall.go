package generator

import (
	"math"
	"strconv"
	"strings"

	"inkwing/evaluate/library/model"
)

// reaches is the error of a charge that stalls on its way.
func (in *HandChargeInput) reaches() error {
	if in.arrives() {
		return nil
	}
	low := in.From
	for i := range chargeParts + 1 {
		v := in.From + (in.To-in.From)*float64(i)/chargeParts
		if in.at(v).net > 0 {
			low = v
			continue
		}
		return in.stall(solve(low, v, func(v float64) float64 { return in.at(v).net }))
	}
	return nil
}

// stall says where, and what would reach the target.
func (in *HandChargeInput) stall(at float64) error {
	e := &model.Error{Field: "to", Summary: "the charge stalls at {0}, short of {1}",
		Values: []model.Value{model.In(at, "V"), model.In(in.To, "V")}}
	var ways []string
	for _, w := range in.ways() {
		if more, ok := in.enough(w); ok {
			ways = append(ways, strings.Replace(w.says, "{}", "{"+strconv.Itoa(len(e.Values))+"}", 1))
			e.Values = append(e.Values, model.In(more, w.unit))
		}
	}
	if len(ways) > 0 {
		e.Summary += "; " + either(ways) + " would reach it"
	}
	e.Hint = in.mend(len(ways) > 0)
	return e
}

// either names one thing or one of several.
func either(list []string) string {
	last := len(list) - 1
	if last < 2 {
		return strings.Join(list, " or ")
	}
	return strings.Join(list[:last], ", ") + ", or " + list[last]
}

// mend says what to change: the arm's limits, where they are in the way.
func (in *HandChargeInput) mend(ways bool) string {
	var limits []string
	for _, l := range []struct {
		name string
		of   func(*HandChargeInput) **float64
	}{
		{"power_limit", func(in *HandChargeInput) **float64 { return &in.PowerLimit }},
		{"torque_limit", func(in *HandChargeInput) **float64 { return &in.TorqueLimit }},
	} {
		free := *in
		*l.of(&free) = nil
		if free.arrives() {
			limits = append(limits, l.name)
		}
	}
	if len(limits) > 0 {
		return "raise " + either(limits) + ", which holds the cadence down"
	}
	if !ways {
		return "raise the arm's limits with the cadence, take a store that leaks less, or aim lower"
	}
	return "raise the cadence, the gearing or the turns, or aim lower"
}

// A wayOut is something by which the rotor's voltage may be raised.
type wayOut struct {
	says, unit string
	now, step  float64 // step is what the number comes in; 0 for any
	scale      float64 // from what it is worked in to what is said
	change     func(in *HandChargeInput, factor float64)
}

func (in *HandChargeInput) ways() []wayOut {
	list := []wayOut{
		{"{} at the crank", "rpm", in.Cadence, 0, 30 / math.Pi, func(in *HandChargeInput, f float64) { in.Cadence *= f }},
		{"a gearing of {}", "1", in.Gearing, 0, 1, func(in *HandChargeInput, f float64) { in.Gearing *= f }},
	}
	if in.Generator.Turns > 0 {
		list = append(list, wayOut{"{} turns a coil of the same copper", "1", in.Generator.Turns, 1, 1, rewind})
	}
	return list
}

// rewind is so many times the turns in the same window, of a wire with as much
// less section.
func rewind(in *HandChargeInput, f float64) {
	g := &in.Generator
	g.PhaseConstant, g.CeilingConstant, g.EmfConstant = g.PhaseConstant*f, g.CeilingConstant*f, g.EmfConstant*f
	g.PhaseResistance, g.CoilResistance = g.PhaseResistance*f*f, g.CoilResistance*f*f
}

// enough is how much of one thing lets the store reach its target, a twentieth
// above the bare minimum; false if nothing of it does.
func (in *HandChargeInput) enough(w wayOut) (float64, bool) {
	need := in.To + 2*in.Generator.leastDrop()
	const step, most = 1.05, 100
	first := step * need / (in.Generator.CeilingConstant * in.Cadence * in.Gearing)
	for factor := max(step, first); factor < most; factor *= step {
		more := factor * w.now
		if w.step > 0 {
			more = math.Ceil(more/w.step) * w.step
		}
		changed := *in
		w.change(&changed, more/w.now)
		if changed.arrives() {
			return more * w.scale, true
		}
	}
	return 0, false
}
