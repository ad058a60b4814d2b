package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// HoldUpTimeInput is a store, a fall of its voltage and one kind of load.
type HoldUpTimeInput struct {
	Store   Store    `help:"the pack, or a single cell"`
	From    float64  `unit:"V" range:"[0,)" help:"rested, at the start"`
	To      float64  `unit:"V" range:"[0,)" help:"at the terminals under load, at the end"`
	Current *float64 `unit:"A" range:"(0,)" choose:"load" help:"constant: a linear regulator, a radio" symbol:"I"`
	Power   *float64 `unit:"W" range:"(0,)" choose:"load" help:"constant: a switching regulator" symbol:"P"`
	Load    *float64 `unit:"Ω" range:"(0,)" choose:"load" help:"constant resistance: a lamp, a bleeder"`

	SlowVoltage *float64 `unit:"V" range:"[0,)" help:"of the slow branch at the start, if the store has one; as from, where it has rested"`
}

// HoldUpTimeResult is the time.
type HoldUpTimeResult struct {
	Time float64 `unit:"s" show:"1" help:"until the terminals fall to the end" symbol:"t"`
	model.Cautions
}

// HoldUpTime says how long a store carries a load. A constant power that the
// store's resistance no longer lets through ends early, at the collapse, and
// says so.
//
// Formula: under a current t = (C0·(Va − Vb) + k·(Va² − Vb²)/2)/I, Vb = Ve + I·R; under a load t = (R + Rl)·(C0·ln(Va/Vb) + k·(Va − Vb)), Vb = Ve·(R + Rl)/Rl; under a power t = C0/(2·P)·q + k/(6·P)·(Va³ + wa³ − Vb³ − wb³), q = (Va² − Vb² + Va·wa − Vb·wb − 4·P·R·ln((Va + wa)/(Vb + wb)))/2, wa = √(Va² − 4·P·R), wb = √(Vb² − 4·P·R), Vb = V_l + P·R/V_l, V_l = max(Ve, √(P·R)); C0 = C − 0.6·k·V_rated.
//
// Letters: C store.capacitance; k store.capacitance_slope or 0 F/V; V_rated store.rated_voltage; R store.resistance; Va from; Ve to; I current; Rl load; P power; t = result.
//
// Validity: constant resistance; leakage neglected. With a capacitance_slope C is C0 + k·V within the integrals; with a slow branch the two are stepped together.
//
// Source: elementary; the closed form agrees with quadrature and a stepped solution.
//
// Example:
//
//	cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ, tolerance: 3 %)
//	store = pack(cell, series: 4)
//	t [s] = hold_up_time(store, from: 10 V, to: 5 V, current: 0.15 A)
func HoldUpTime(in HoldUpTimeInput) (HoldUpTimeResult, error) {
	run, err := Discharge(DischargeInput(in))
	return HoldUpTimeResult{Time: run.Time, Cautions: run.Cautions}, err
}

// DischargeInput is a store, a fall of its voltage and one kind of load.
type DischargeInput HoldUpTimeInput

// DischargeResult is what becomes of the store under the load.
type DischargeResult struct {
	Time       float64 `unit:"s" show:"1" help:"until the terminals fall to the end" symbol:"t"`
	EndVoltage float64 `unit:"V" show:"2" help:"rested, at the end: what the terminals rise to without the load"`
	Delivered  float64 `unit:"J" help:"to the load"`
	Lost       float64 `unit:"J" show:"3" help:"in the store's resistance"`
	Left       float64 `unit:"J" help:"in the store, at the end"`

	Settling       *float64 `unit:"J" help:"lost between the branches of a store that has a slow one"`
	SettledVoltage *float64 `unit:"V" help:"of such a store some minutes after, without the load"`
	model.Cautions
}

// Discharge says what becomes of a store under a load: how long it carries it,
// where the voltage recovers to, and where the energy goes.
//
// Formula: t and V_end as hold_up_time has them; all E = C0·(Va² − V_end²)/2 + k·(Va³ − V_end³)/3, C0 = C − 0.6·k·V_rated; given E_out = E − E_lost; lost under a current E_lost = I²·R·t, under a load E_lost = E·R/(R + Rl), under a power E_lost = E − P·t.
//
// Letters: C store.capacitance; k store.capacitance_slope or 0 F/V; R store.resistance; V_rated store.rated_voltage; Va from; I current; Rl load; P power; t = time; V_end = end_voltage; E_out = delivered; E_lost = lost.
//
// Validity: as hold_up_time.
//
// Source: elementary.
//
// Example:
//
//	cell = capacitor(capacitance: 10 F, rated_voltage: 5.4 V, resistance: 30 mΩ)
//	run = discharge(cell, from: 5 V, to: 2.5 V, power: 8 W)
func Discharge(in DischargeInput) (DischargeResult, error) {
	if err := in.Store.check("store"); err != nil {
		return DischargeResult{}, err
	}
	load, err := in.load()
	if err != nil {
		return DischargeResult{}, err
	}
	end, collapses, err := load.end(in.To)
	if err != nil {
		return DischargeResult{}, err
	}
	if end > in.From {
		return DischargeResult{}, downAtOnce(in.From, in.To, end)
	}
	out, err := in.run(load, end)
	if err != nil {
		return DischargeResult{}, err
	}
	out.List = in.Store.Charged(in.From)
	if collapses {
		out.Raise(collapse(end, in.To, *in.Power))
	}
	if in.Store.rows() > 1 && end < in.Store.Tolerance*in.From {
		out.Raise(reversedCell(end, in.From, in.Store.Tolerance))
	}
	if in.Store.Resistance == 0 {
		out.Raise(noResistance())
	}
	if in.Store.Plain() {
		out.Raise(risingCapacitance())
	}
	out.Raise(residualCharge())
	return out, nil
}

// A drain is what empties a store: it knows the rested voltage at which the
// terminals are down, what flows on the way there, and the way itself where one
// branch is all there is.
type drain interface {
	end(terminal float64) (rested float64, collapses bool, err error)
	flow(rested float64) float64
	run(from, to float64) DischargeResult // between rested voltages
}

// load picks the one kind of load that was given.
func (in DischargeInput) load() (drain, error) {
	s := in.Store
	switch {
	case in.Current != nil && in.Power == nil && in.Load == nil:
		return constantCurrent{s, *in.Current}, require.Positive("current", *in.Current, "A")
	case in.Power != nil && in.Current == nil && in.Load == nil:
		return constantPower{s, *in.Power}, require.Positive("power", *in.Power, "W")
	case in.Load != nil && in.Current == nil && in.Power == nil:
		return constantLoad{s, *in.Load}, require.Positive("load", *in.Load, "Ω")
	}
	return nil, &model.Error{
		Summary: "exactly one of current, power and load says what empties the store",
		Hint:    "give one of the three",
	}
}

type constantCurrent struct {
	store   Store
	current float64
}

func (d constantCurrent) end(terminal float64) (float64, bool, error) {
	return terminal + d.current*d.store.Resistance, false, nil
}

func (d constantCurrent) flow(float64) float64 { return d.current }

func (d constantCurrent) run(from, to float64) DischargeResult {
	t := d.store.law().Charge(to, from) / d.current
	lost := d.current * d.current * d.store.Resistance * t
	return DischargeResult{Time: t, EndVoltage: to, Lost: lost, Delivered: given(d.store, from, to) - lost}
}

type constantLoad struct {
	store Store
	load  float64
}

func (d constantLoad) end(terminal float64) (float64, bool, error) {
	if terminal <= 0 {
		return 0, false, &model.Error{
			Field:   "to",
			Summary: "is zero, and through a resistance a store falls towards zero without ever reaching it",
			Hint:    "give an end above zero",
		}
	}
	return terminal * (d.store.Resistance + d.load) / d.load, false, nil
}

func (d constantLoad) flow(rested float64) float64 { return rested / (d.store.Resistance + d.load) }

func (d constantLoad) run(from, to float64) DischargeResult {
	sum := d.store.Resistance + d.load
	all, l := given(d.store, from, to), d.store.law()
	return DischargeResult{
		Time:       sum * (l.C0*math.Log(from/to) + l.Slope*(from-to)),
		EndVoltage: to,
		Delivered:  all * d.load / sum,
		Lost:       all * d.store.Resistance / sum,
	}
}

type constantPower struct {
	store Store
	power float64
}

// end is the collapse where the wanted end lies below half of it: no current
// then carries the power any more.
func (d constantPower) end(terminal float64) (float64, bool, error) {
	half := math.Sqrt(d.power * d.store.Resistance)
	switch {
	case terminal < half:
		return 2 * half, true, nil
	case terminal == 0:
		return 0, false, nil
	}
	return terminal + d.power*d.store.Resistance/terminal, false, nil
}

func (d constantPower) flow(rested float64) float64 {
	return 2 * d.power / (rested + math.Sqrt(max(0, rested*rested-4*d.power*d.store.Resistance)))
}

func (d constantPower) run(from, to float64) DischargeResult {
	a2, l := 4*d.power*d.store.Resistance, d.store.law()
	t := (powerIntegral(from, a2) - powerIntegral(to, a2)) * l.C0 / (2 * d.power)
	t += (risingIntegral(from, a2) - risingIntegral(to, a2)) * l.Slope / (2 * d.power)
	delivered := d.power * t
	return DischargeResult{Time: t, EndVoltage: to, Delivered: delivered, Lost: max(0, given(d.store, from, to)-delivered)}
}

// powerIntegral is the antiderivative of u + √(u² − a²).
func powerIntegral(u, a2 float64) float64 {
	if a2 == 0 {
		return u * u
	}
	s := math.Sqrt(max(0, u*u-a2))
	return u*u/2 + (u*s-a2*math.Log(u+s))/2
}

// risingIntegral is the antiderivative of u·(u + √(u² − a²)).
func risingIntegral(u, a2 float64) float64 {
	s := math.Sqrt(max(0, u*u-a2))
	return (u*u*u + s*s*s) / 3
}

// given is what the fast branch gives between two rested voltages.
func given(s Store, from, to float64) float64 { return s.law().Energy(to, from) }

func downAtOnce(from, to, end float64) error {
	return &model.Error{
		Field:   "from",
		Summary: "is {0} rested, but under this load the terminals hold {1} only while the store is above {2}",
		Values:  []model.Value{model.In(from, "V"), model.In(to, "V"), model.In(end, "V")},
		Hint:    "start higher, end lower, draw less, or lower the store's resistance",
	}
}

func collapse(at, to, power float64) model.Caution {
	return model.Caution{
		ID: "power-collapse", Level: model.Warning, Severity: at / to,
		Summary: "At {2} rested the voltage collapses under {0}.",
		Values: []model.Value{model.In(power, "W"), model.In(to, "V"), model.In(at, "V"),
			model.In(at/2, "V")},
		Why:    "It was to reach {1}, and is {3} at the terminals then. Below that, more current only loses more in the store's own resistance.",
		Hint:   "End higher, draw less, or lower the resistance.",
		Source: "maximum power of a source with resistance, V²/(4·R): elementary",
	}
}
