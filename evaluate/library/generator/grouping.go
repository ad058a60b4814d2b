package generator

import (
	"context"
	"math"
	"sort"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// GroupingsInput is what [Groupings] reads.
type GroupingsInput struct {
	Generator      Machine
	Store          ChargedStore
	To             float64  `unit:"V" range:"(0,)" help:"rested, at the end"`
	Cadence        float64  `unit:"rpm" range:"(0,)" help:"of the crank, as wanted"`
	Gearing        float64  `unit:"1" range:"(0,)" help:"turns of the rotor to one of the crank"`
	From           float64  `unit:"V" default:"0 V" range:"[0,)" help:"rested, at the start"`
	GearEfficiency float64  `unit:"1" default:"0.9" range:"(0,1]"`
	Drag           float64  `unit:"N·m" default:"0 N·m" range:"[0,)" help:"at the crank"`
	PowerLimit     *float64 `unit:"W" range:"(0,)" help:"at the crank"`
	TorqueLimit    *float64 `unit:"N·m" range:"(0,)" help:"at the crank"`
}

// GroupingRow is one way to join the coils.
type GroupingRow struct {
	Grouping   string
	Phases     int
	Series     int
	Parallel   int
	Ceiling    float64  `unit:"V"`
	Resistance float64  `unit:"Ω" help:"of a phase, of the star that it is or that stands for it"`
	Time       *float64 `unit:"s" help:"not known where it never gets there"`
	PeakTorque *float64 `unit:"N·m" help:"at the crank"`
}

// GroupingsResult is every way, the quickest first.
type GroupingsResult struct {
	Best   string   `show:"1"`
	Time   *float64 `unit:"s" show:"2" help:"of the best"`
	Reach  int      `show:"3" help:"ways that reach the voltage"`
	Ways   int      `show:"4" help:"ways that can be wired"`
	Groups []GroupingRow
	model.Cautions
}

// Groupings charges the store with the coils joined in every way: series and
// parallel, one phase or three, star or delta, one bridge or one a string.
//
// Formula: those of generator and hand_charge
//
// Validity: as there. Ways whose strings would drive a current round each other are left out.
//
// Source: sum over the ways
//
// Example:
//
//	c = coil(87, awg(21), 10 mm, 9 mm, 8 mm)
//	gen = generator(c, 9, 12, emf_constant: 0.05 V·s/rad, diode_drop: 0.4 V, rectifiers: "each")
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	ways = groupings(gen, store, 12.5 V, 75 rpm, 12, power_limit: 45 W)
func Groupings(ctx context.Context, in GroupingsInput) (GroupingsResult, error) {
	base := HandChargeInput(in)
	if err := base.check(); err != nil {
		return GroupingsResult{}, err
	}
	if err := require.All(require.Positive("generator.emf_constant", in.Generator.EmfConstant, "V·s/rad"),
		require.Positive("generator.coil_resistance", in.Generator.CoilResistance, "Ω")); err != nil {
		return GroupingsResult{}, err
	}
	var out GroupingsResult
	for _, w := range wirings(in.Generator.Coils, in.Generator.Poles) {
		row, ok, err := in.Generator.try(ctx, w, base)
		if err != nil {
			return GroupingsResult{}, err
		}
		if ok {
			out.Groups = append(out.Groups, row)
			if row.Time != nil {
				out.Reach++
			}
		}
	}
	out.Ways = len(out.Groups)
	if out.Ways == 0 {
		return out, &model.Error{Field: "generator.coils", Summary: "there is no way to join these coils", Hint: "change the number of coils or poles"}
	}
	sort.SliceStable(out.Groups, func(i, j int) bool { return out.Groups[i].key() < out.Groups[j].key() })
	out.Best, out.Time = out.Groups[0].Grouping, out.Groups[0].Time
	if out.Time == nil {
		out.Best = "none reaches it"
	}
	base.weakest(&out.Cautions)
	in.overcharge(&out, base)
	return out, nil
}

// overcharge cautions the way with the highest ceiling of those that arrive.
func (in GroupingsInput) overcharge(out *GroupingsResult, base HandChargeInput) {
	highest := 0.0
	for _, r := range out.Groups {
		if r.Time != nil {
			highest = max(highest, r.Ceiling)
		}
	}
	// Only the ceiling counts here, whatever way it comes from.
	base.Generator.CeilingConstant = (highest + 2*base.Generator.leastDrop()) / (base.Cadence * base.Gearing)
	base.overcharge(&out.Cautions, math.Inf(1))
}

// key orders rows by time, those that never arrive by their lack of volts.
func (r GroupingRow) key() float64 {
	if r.Time != nil {
		return *r.Time
	}
	return 1e12 - r.Ceiling
}

// A wiring is what the generator's inputs say about joining.
type wiring struct {
	phases, series                int
	connection, rectifiers, named string
}

// wirings are the ways worth a try: whole strings, and three phases where the
// coils make three like ones.
func wirings(coils, poles int) []wiring {
	var out []wiring
	_, three := tryArrange(coils, poles/2, 3)
	for series := 1; series <= coils; series++ {
		if coils%series == 0 {
			out = append(out, wiring{1, series, "star", "common", "single phase"}, wiring{1, series, "star", "each", "single phase, a bridge each"})
		}
		if three && coils/3%series == 0 {
			out = append(out, wiring{3, series, "star", "common", "star"}, wiring{3, series, "delta", "common", "delta"},
				wiring{3, series, "star", "each", "three phases, a bridge each"})
		}
	}
	return out
}

// try charges with one wiring; false if it cannot be wired.
func (m Machine) try(ctx context.Context, w wiring, base HandChargeInput) (GroupingRow, bool, error) {
	in := GeneratorInput{Coils: m.Coils, Poles: m.Poles, Phases: w.phases, Connection: w.connection, Rectifiers: w.rectifiers, Series: &w.series,
		DiodeDrop: m.DiodeDrop, LeadResistance: m.LeadResistance, Coil: RotorCoil{Turns: m.Turns, Resistance: m.CoilResistance, Height: m.CoilHeight}}
	j, err := in.join(m.EmfConstant)
	// One set of strings is the same as the common way, and three phases of
	// coils in step are the same as so many sets.
	same := w.rectifiers == "each" && (j.bridges == 1 || w.phases == 3 && j.factor > 1-1e-9)
	if err != nil || same {
		return GroupingRow{}, false, nil
	}
	base.Generator = in.machine(m.EmfConstant, j)
	base.Generator.EddyConstant = m.EddyConstant // the field sweeps the same wire
	base.Generator.DiodeSaturation, base.Generator.DiodeScale, base.Generator.DiodeResistance = m.DiodeSaturation, m.DiodeScale, m.DiodeResistance
	row := GroupingRow{Grouping: w.named, Phases: w.phases, Series: j.series, Parallel: j.parallel,
		Ceiling: base.Generator.ceiling(base.Cadence * base.Gearing), Resistance: base.Generator.PhaseResistance}
	if row.Ceiling > base.From && base.arrives() {
		r, err := base.run(ctx)
		if err != nil {
			return GroupingRow{}, false, err
		}
		if !math.IsInf(r.Time, 0) {
			row.Time, row.PeakTorque = &r.Time, &r.PeakTorque
		}
	}
	return row, true, nil
}
