package generator

import (
	"context"
	"sort"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// GroupingsInput is what [Groupings] reads.
type GroupingsInput struct{ HandChargeInput }

// GroupingRow is one way to join the coils.
type GroupingRow struct {
	Grouping   string
	Phases     int
	Series     int
	Parallel   int
	Ceiling    float64  `unit:"V"`
	Resistance float64  `unit:"Ω" help:"of a phase, of the star that it is or that stands for it" symbol:"R"`
	Time       *float64 `unit:"s" help:"not known where it never gets there" symbol:"t"`
	PeakTorque *float64 `unit:"N·m" help:"at the crank"`
}

// GroupingsResult is every way, the quickest first.
type GroupingsResult struct {
	Best   string   `show:"1"`
	Time   *float64 `unit:"s" show:"2" help:"of the best" symbol:"t"`
	Reach  int      `show:"3" help:"ways that reach the voltage"`
	Ways   int      `help:"ways that can be wired"`
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
	base := in.HandChargeInput
	if err := base.check(); err != nil {
		return GroupingsResult{}, err
	}
	if err := require.All(require.Positive("generator.emf_constant", in.Generator.EmfConstant, "V·s/rad"),
		require.Positive("generator.coil_resistance", in.Generator.CoilResistance, "Ω")); err != nil {
		return GroupingsResult{}, err
	}
	base.Looks = model.BoundedLooks(max(manyLooks, looksByCoil*min(in.Generator.Coils, 100))) // the more coils, the more ways
	var out GroupingsResult
	for _, w := range wirings(in.Generator.Coils, in.Generator.Poles) {
		if row, ok := in.Generator.try(ctx, w, base); ok {
			out.Groups = append(out.Groups, row)
			if row.Time != nil {
				out.Reach++
			}
		}
	}
	if err := base.followed(ctx.Err()); err != nil {
		return GroupingsResult{}, err
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
	base.target(&out.Cautions)
	out.overcharge(base)
	return out, nil
}

// overcharge cautions the way that is recommended, if it arrives.
func (out *GroupingsResult) overcharge(base HandChargeInput) {
	best := out.Groups[0]
	if best.Time == nil || base.Store.RatedVoltage == nil || best.Ceiling <= *base.Store.RatedVoltage || base.To > *base.Store.RatedVoltage {
		return
	}
	out.Raise(model.Caution{ID: "best-grouping-can-overcharge", Level: model.Warning,
		Summary: "The best, {2} in series × {3}, charges to {0}, past the rated {1}.",
		Values: []model.Value{model.In(best.Ceiling, "V"), model.In(*base.Store.RatedVoltage, "V"),
			model.In(float64(best.Series), "1"), model.In(float64(best.Parallel), "1")},
		Why:    overchargeWhy,
		Hint:   "Watch a stop mark, or clamp it.",
		Source: overchargeSource})
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
func (m Machine) try(ctx context.Context, w wiring, base HandChargeInput) (GroupingRow, bool) {
	in := GeneratorInput{Coils: m.Coils, Poles: m.Poles, Phases: w.phases, Connection: w.connection, Rectifiers: w.rectifiers, Series: &w.series,
		DiodeDrop: m.DiodeDrop, LeadResistance: m.LeadResistance, Coil: m.coil()}
	j, err := in.join(m.EmfConstant)
	// One set of strings is the same as the common way, and three phases of
	// coils in step are the same as so many sets.
	same := w.rectifiers == "each" && (j.bridges == 1 || w.phases == 3 && j.factor > 1-1e-9)
	if err != nil || same {
		return GroupingRow{}, false
	}
	base.Generator = in.machine(m.EmfConstant, j)
	base.Generator.EddyConstant = m.EddyConstant // the field sweeps the same wire
	base.Generator.DiodeSaturation, base.Generator.DiodeScale, base.Generator.DiodeResistance = m.DiodeSaturation, m.DiodeScale, m.DiodeResistance
	row := GroupingRow{Grouping: w.named, Phases: w.phases, Series: j.series, Parallel: j.parallel,
		Ceiling: base.Generator.ceiling(base.Cadence * base.Gearing), Resistance: base.Generator.PhaseResistance}
	if row.Ceiling > base.From && base.arrives() {
		if c, err := base.follow(ctx, base.From, base.To, base.start()); err == nil {
			row.Time, row.PeakTorque = &c.y[iTime], &c.torque
		}
	}
	return row, true
}

// coil is one of a machine's coils, as it was before they were joined.
func (m Machine) coil() RotorCoil {
	mass := m.CopperMass / float64(max(1, m.Coils))
	c := RotorCoil{Turns: m.Turns, Resistance: m.CoilResistance, Height: m.CoilHeight, CopperMass: &mass, Temperature: m.CoilTemperature,
		Inductance: m.PhaseInductance * m.CoilResistance / m.PhaseResistance}
	if m.CoilHeight > 0 { // any winding of the surface
		turn := m.CoilSurface / float64(max(1, m.Coils)) / (2 * m.CoilHeight)
		c.MeanTurn = &turn
	}
	return c
}
