package generator

import (
	"math"
	"strconv"
	"strings"

	"inkwing/evaluate/library/model"
)

// reaches is the error of a charge that stalls on its way.
func (in *HandChargeInput) reaches() error {
	if in.TorqueLimit != nil && in.Drag >= *in.TorqueLimit {
		return &model.Error{Field: "torque_limit", Summary: "is {0}, and the drag alone takes {1}",
			Values: []model.Value{model.In(*in.TorqueLimit, "N·m"), model.In(in.Drag, "N·m")},
			Hint:   "ease the bearings and gears, or allow more torque"}
	}
	if in.arrives() {
		return nil
	}
	low, top := in.From, min(in.To, in.Generator.ceiling(in.Cadence*in.Gearing))
	if top <= in.From {
		return in.stall(in.From)
	}
	for i := range chargeParts + 1 {
		v := in.From + (top-in.From)*float64(i)/chargeParts
		if in.at(v).net > 0 {
			low = v
			continue
		}
		return in.stall(solve(low, v, func(v float64) float64 { return in.at(v).net }))
	}
	return in.stall(top)
}

// stall says where, and what would reach the target, if the store may hold it.
func (in *HandChargeInput) stall(at float64) error {
	e := &model.Error{Field: "to", Summary: "the charge stalls at {0}, {1} short of {2}",
		Values: []model.Value{model.In(at, "V"), model.In(in.To-at, "V"), model.In(in.To, "V")}}
	if rating := in.Store.RatedVoltage; rating != nil && in.To > *rating {
		e.Summary += ", which is above the store's rating of {3}"
		e.Values = append(e.Values, model.In(*rating, "V"))
		e.Hint = "aim no higher than the rating: above it cells gas and can vent"
		return e
	}
	var ways []string
	for _, w := range in.ways() {
		if more, ok := in.enough(w); ok {
			ways = append(ways, strings.Replace(w.says, "{}", "{"+strconv.Itoa(len(e.Values))+"}", 1))
			e.Values = append(e.Values, model.Value{Number: more, Unit: w.unit})
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

// mend says what to change: the arm's limits, where they are given and in the way.
func (in *HandChargeInput) mend(ways bool) string {
	var given, guilty []string
	for _, l := range []struct {
		name string
		of   func(*HandChargeInput) **float64
	}{
		{"power_limit", func(in *HandChargeInput) **float64 { return &in.PowerLimit }},
		{"torque_limit", func(in *HandChargeInput) **float64 { return &in.TorqueLimit }},
	} {
		free := *in
		if *l.of(&free) == nil {
			continue
		}
		given = append(given, l.name)
		*l.of(&free) = nil
		if free.arrives() {
			guilty = append(guilty, l.name)
		}
	}
	switch {
	case len(guilty) > 0:
		return "raise " + either(guilty) + ", which holds the cadence down, or aim lower"
	case ways:
		return "change one of these, or aim lower"
	}
	var list []string
	if len(given) > 0 {
		list = append(list, "raise "+strings.Join(given, " and ")+" with the cadence")
	}
	if in.Store.LeakageResistance != nil {
		list = append(list, "take a store that leaks less")
	}
	return either(append(list, "aim lower"))
}

// briskest is a cadence that no arm keeps up (common practice).
const briskest = 150 * math.Pi / 30

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
// above the bare minimum; false if nothing of it does. It is looked for in larger steps first.
func (in *HandChargeInput) enough(w wayOut) (float64, bool) {
	need := in.To + 2*in.Generator.leastDrop()
	const step, coarsely, most = 1.05, 4, 100
	first := max(step, step*need/(in.Generator.CeilingConstant*in.Cadence*in.Gearing))
	if !(first < most) {
		return 0, false
	}
	last := int(math.Log(most/first) / math.Log(step))
	try := func(k int) (float64, bool, bool) { return in.enoughOf(w, first*math.Pow(step, float64(k))) }
	for top := 0; top < last+coarsely; top += coarsely {
		if _, ok, end := try(top); !ok && !end && top < last {
			continue
		}
		for k := max(0, top-coarsely+1); k <= min(top, last); k++ {
			if more, ok, _ := try(k); ok {
				return more * w.scale, true
			}
		}
		break
	}
	return 0, false
}

// enoughOf is how much of one thing a factor stands for, whether it lets the store reach its
// target, and whether it is more than an arm can do, and all above it.
func (in *HandChargeInput) enoughOf(w wayOut, factor float64) (more float64, ok, end bool) {
	more = factor * w.now
	if w.step > 0 {
		more = math.Ceil(more/w.step) * w.step
	}
	changed := *in
	w.change(&changed, more/w.now)
	if changed.Cadence > max(in.Cadence, briskest) {
		return 0, false, true
	}
	return more, changed.arrives(), false
}
