package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// ChargedStore is what charging reads of a store.
type ChargedStore struct {
	Capacitance       float64  `unit:"F" range:"(0,)"`
	Resistance        float64  `unit:"Ω" default:"0 Ω" range:"[0,)"`
	RatedVoltage      *float64 `unit:"V" range:"(0,)"`
	LeakageResistance *float64 `unit:"Ω" range:"(0,)"`
	SafeVoltage       *float64 `unit:"V" range:"(0,)" help:"at which the weakest cell is at its rating"`
}

// HandChargeInput is what [HandCharge] reads.
type HandChargeInput struct {
	Generator      Machine
	Store          ChargedStore
	To             float64  `unit:"V" range:"(0,)" help:"rested, at the end"`
	Cadence        float64  `unit:"rpm" range:"(0,)" help:"of the crank, as wanted"`
	Gearing        float64  `unit:"1" range:"(0,)" help:"turns of the rotor to one of the crank"`
	From           float64  `unit:"V" default:"0 V" range:"[0,)" help:"rested, at the start"`
	GearEfficiency float64  `unit:"1" default:"0.9" range:"(0,1]"`
	Drag           float64  `unit:"N·m" default:"0 N·m" range:"[0,)" help:"of bearings and gears, at the crank"`
	PowerLimit     *float64 `unit:"W" range:"(0,)" help:"at the crank; the cadence is lowered to keep it"`
	TorqueLimit    *float64 `unit:"N·m" range:"(0,)" help:"at the crank; the cadence is lowered to keep it"`
}

// ChargeRow is a moment of a charge.
type ChargeRow struct {
	Time    float64 `unit:"s" name:"t"`
	Voltage float64 `unit:"V" name:"V" help:"of the store, rested"`
	Current float64 `unit:"A" name:"I"`
	Power   float64 `unit:"W" name:"P" help:"at the crank"`
	Torque  float64 `unit:"N·m" help:"at the crank"`
	Cadence float64 `unit:"rpm"`
}

// ChargeSum is where the work at the crank goes.
type ChargeSum struct {
	Work    float64 `unit:"J" show:"2" help:"at the crank"`
	Stored  float64 `unit:"J" show:"3"`
	Copper  float64 `unit:"J" help:"lost in the coils"`
	Leads   float64 `unit:"J" help:"lost in leads and fuse"`
	StoreR  float64 `unit:"J" name:"store_loss" help:"lost in the store's resistance"`
	Diodes  float64 `unit:"J"`
	Gears   float64 `unit:"J"`
	Drag    float64 `unit:"J"`
	Eddy    float64 `unit:"J" help:"lost to eddy currents in the wire, which the field sweeps; 0 if not known"`
	Leakage float64 `unit:"J"`
}

// HandChargeResult is how a charge by hand went.
type HandChargeResult struct {
	Time float64 `unit:"s" show:"1"`
	ChargeSum
	Efficiency  float64 `unit:"%" show:"4"`
	Turns       float64 `unit:"1" help:"of the crank"`
	PeakTorque  float64 `unit:"N·m" show:"5" help:"at the crank"`
	PeakPower   float64 `unit:"W" help:"at the crank"`
	PeakCurrent float64 `unit:"A" help:"mean over a turn of the emf, into the store"`
	WireCurrent float64 `unit:"A" help:"rms in one coil over the charge"`
	Ceiling     float64 `unit:"V" help:"where the wanted cadence would end"`
	History     []ChargeRow
	model.Cautions
}

// A pull is the state of the whole chain at one rested voltage.
type pull struct {
	drain
	cadence, torque float64 // of the crank
	eddy            float64 // W, lost in the wire whether a current flows or not
	net             float64 // A, what charges: the current less the leak
	held            hold
}

// hold is which limit holds the cadence down.
type hold int

const (
	free hold = iota
	byPower
	byTorque
)

func (p pull) crankPower() float64 { return p.torque * p.cadence }

// at works the chain at a rested voltage, the cadence lowered to the limits.
func (in *HandChargeInput) at(v float64) pull { return (&arm{HandChargeInput: in}).at(v) }

// An arm turns the crank at one voltage after another, and begins each time
// where the last two point.
type arm struct {
	*HandChargeInput
	held            bool    // by a limit, the last time
	v, near, gained float64 // the voltage and cadence then, and what cadence gained by the volt
}

// at is [HandChargeInput.at]. What passes a limit is convex in the cadence, so
// that Newton's steps come down on it from above.
func (a *arm) at(v float64) pull {
	cadence := a.Cadence
	if a.held {
		cadence = min(a.Cadence, a.near+a.gained*(v-a.v))
	}
	for range 40 {
		p := a.turning(v, cadence)
		over, grows := a.over(p)
		if cadence == a.Cadence && over <= 0 {
			a.held = false
			return p
		}
		if math.Abs(over) < 1e-11 {
			return a.hold(v, p)
		}
		cadence = min(a.Cadence, cadence*(1-over/grows))
		if !(cadence > 1e-6*a.Cadence) || p.mean == 0 {
			break
		}
	}
	return a.search(v)
}

// hold says which limit holds a pull.
func (a *arm) hold(v float64, p pull) pull {
	if p.held = byPower; a.tilt(p) < 0 {
		p.held = byTorque
	}
	if a.gained = 0; a.held && v != a.v {
		a.gained = (p.cadence - a.near) / (v - a.v)
	}
	a.held, a.v, a.near = true, v, p.cadence
	return p
}

// search finds the cadence where steps from above fail: none, or hardly above
// where a current begins.
func (a *arm) search(v float64) pull {
	a.held = false
	under := func(c float64) float64 { over, _ := a.over(a.turning(v, c)); return -over }
	onset := (v + 2*a.Generator.leastDrop()) / (a.Generator.CeilingConstant * a.Gearing)
	if onset <= 0 || under(onset) < 0 {
		onset = a.Cadence * 1e-6
	}
	if under(onset) < 0 { // too much for the arm however slowly it turns
		return pull{torque: a.Drag, net: -a.leak(v)}
	}
	if under(a.Cadence) >= 0 {
		return a.turning(v, a.Cadence)
	}
	return a.hold(v, a.turning(v, solve(onset, a.Cadence, under)))
}

// over is how far a pull passes the nearer limit, by that limit, and how that
// grows with the logarithm of the cadence.
func (in *HandChargeInput) over(p pull) (over, grows float64) {
	over = -1
	if in.PowerLimit != nil {
		over = p.crankPower() / *in.PowerLimit - 1
		grows = ((p.slope+2*p.eddy)/in.GearEfficiency + in.Drag*p.cadence) / *in.PowerLimit
	}
	if in.TorqueLimit != nil {
		if torque := p.torque / *in.TorqueLimit - 1; torque > over {
			over, grows = torque, (p.slope-p.power+p.eddy)/(p.cadence*in.GearEfficiency) / *in.TorqueLimit
		}
	}
	return over, grows
}

// tilt is above zero where power is nearer to its limit than torque.
func (in *HandChargeInput) tilt(p pull) float64 {
	tilt := 0.0
	if in.PowerLimit != nil {
		tilt = p.crankPower() / *in.PowerLimit
	}
	if in.TorqueLimit != nil {
		tilt -= p.torque / *in.TorqueLimit
	}
	return tilt
}

func (in *HandChargeInput) turning(v, cadence float64) pull {
	g := &in.Generator
	rotation := cadence * in.Gearing
	d := g.into(v, rotation, g.LeadResistance+in.Store.Resistance)
	eddy := g.EddyConstant * rotation * rotation
	return pull{drain: d, eddy: eddy, cadence: cadence, torque: (d.power+eddy)/(cadence*in.GearEfficiency) + in.Drag, net: d.mean - in.leak(v)}
}

func (in *HandChargeInput) leak(v float64) float64 {
	if in.Store.LeakageResistance == nil {
		return 0
	}
	return v / *in.Store.LeakageResistance
}

// HandCharge turns a crank until a store is charged: how long, how hard, and
// where the work goes.
//
// Formula: dV/dt = (I(V, ω) − V/R_leak)/C with the bridge's mean current;
// torque at the crank (P + eddy)/ω·gearing/efficiency + drag; the cadence is the wanted
// one, lowered where crank power or torque would pass its limit;
// eddy loss of the wire π·d⁴·l/(64·ρ)·(dB/dt)², mean square;
// work = stored + copper + leads + store + diodes + gears + drag + eddy + leakage
//
// Validity: the voltage stands still over a turn of the emf; ω·L below a tenth
// of R; the rotor's own inertia is left out. Everything depends on the voltage alone, so time is
// a quadrature over it, to 1e-9.
//
// Source: t = ∫ C dV/I(V); sum of energies; eddy loss: C. R. Sullivan, IEEE
// Trans. Power Electron. 16 (2001) 142
//
// Example:
//
//	w = awg(21)
//	c = coil(87, w, 10 mm, 9 mm, 8 mm, temperature: 40 °C)
//	m = magnet_disc(20 mm, 5 mm, 1.28 T)
//	gen = generator(c, 9, 12, magnet: m, radius: 45 mm, gap: 10 mm, phases: 3, diode_drop: 0.4 V)
//	cell = capacitor(100 F, 2.7 V, resistance: 10 mΩ)
//	store = pack(cell, series: 5)
//	ride = hand_charge(gen, store, 12.5 V, 75 rpm, 12, power_limit: 45 W, torque_limit: 8 N·m)
//	t_charge [s] = ride.time
func HandCharge(ctx context.Context, in HandChargeInput) (HandChargeResult, error) {
	if err := in.check(); err != nil {
		return HandChargeResult{}, err
	}
	if err := in.reaches(); err != nil {
		return HandChargeResult{}, err
	}
	out, err := in.run(ctx)
	if err != nil {
		return HandChargeResult{}, err
	}
	err = in.caution(ctx, &out)
	return out, err
}

func (in *HandChargeInput) check() error {
	err := require.All(require.Positive("generator.phase_constant", in.Generator.PhaseConstant, "V·s/rad"),
		require.Positive("generator.phase_resistance", in.Generator.PhaseResistance, "Ω"),
		require.Positive("store.capacitance", in.Store.Capacitance, "F"),
		require.Positive("cadence", in.Cadence, "rad/s"), require.Positive("gearing", in.Gearing, "1"),
		require.Positive("gear_efficiency", in.GearEfficiency, "1"), require.Positive("to", in.To, "V"),
		require.NotNegative("from", in.From, "V"), require.NotNegative("drag", in.Drag, "N·m"),
		require.NotNegative("store.resistance", in.Store.Resistance, "Ω"))
	if err == nil && in.To <= in.From {
		err = &model.Error{Field: "to", Summary: "the store is there already, at {0}",
			Values: []model.Value{model.In(in.From, "V")}, Hint: "give a higher voltage than from"}
	}
	return err
}

// chargeParts is how many equal steps of voltage a history has.
const chargeParts = 20

// arrives reports whether there is a current left at the end: it falls as the
// voltage rises.
func (in *HandChargeInput) arrives() bool { return in.at(in.To).net > 0 }
