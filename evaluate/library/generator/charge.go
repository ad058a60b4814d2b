package generator

import (
	"cmp"
	"context"
	"errors"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
)

// ChargedStore is what charging reads of a store.
type ChargedStore struct {
	Capacitance       float64  `unit:"F" range:"(0,)" symbol:"C"`
	Resistance        float64  `unit:"Ω" default:"0 Ω" range:"[0,)" symbol:"R"`
	RatedVoltage      *float64 `unit:"V" range:"(0,)" symbol:"V_rated"`
	LeakageResistance *float64 `unit:"Ω" range:"(0,)"`
	SafeVoltage       *float64 `unit:"V" range:"(0,)" help:"at which the weakest cell is at its rating"`
	twobranch.Fields
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
	TorqueLimit    *float64 `unit:"N·m" range:"(0,)" help:"at the crank, the mean over a turn of the emf; the cadence is lowered to keep it"`

	CoilTemperature *float64 `unit:"°C" range:"[-50,200]" help:"of the coils at the start; that for which they were worked if left out"`
	HeatLoss        *float64 `unit:"W/K" range:"[0,)" help:"that all coils give off; by their surface in still air if left out, 0 keeps all of it in them"`
	Surroundings    float64  `unit:"°C" default:"20 °C" range:"[-50,60]" help:"of the coils"`

	model.Looks
}

// How many looks at the machine one call may take, of half a microsecond each: for one
// charge, of which a common one takes some two hundred, and for many.
const (
	mostLooks = 6_000
	manyLooks = 10_000

	looksByCoil = 250 // where coils are joined in every way
)

// followed is the error of a charge, another one where that took more looks than there
// were: what it came to says nothing then.
func (in *HandChargeInput) followed(err error) error {
	if !in.Spent() || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return &model.Error{Field: "generator", Summary: "charges in a way that cannot be followed: the arm, the coils and the store turn it about again and again",
		Hint: "check for a value far out of the usual: inductance, leakage and limits above all, and fewer charges or coils if there are many"}
}

// ChargeRow is a moment of a charge.
type ChargeRow struct {
	Time        float64 `unit:"s" name:"t" symbol:"t"`
	Voltage     float64 `unit:"V" name:"V" help:"of the store, rested" symbol:"V"`
	Current     float64 `unit:"A" name:"I" symbol:"I"`
	Power       float64 `unit:"W" name:"P" help:"at the crank" symbol:"P"`
	Torque      float64 `unit:"N·m" help:"at the crank"`
	Cadence     float64 `unit:"rpm"`
	Temperature float64 `unit:"°C" help:"of the coils"`

	PulseTorque float64 `unit:"N·m" help:"at the crank, the largest within a turn of the emf"`
}

// ChargeSum is where the work at the crank goes.
type ChargeSum struct {
	Work     float64 `unit:"J" show:"2" help:"at the crank"`
	Stored   float64 `unit:"J"`
	Copper   float64 `unit:"J" help:"lost in the coils"`
	Leads    float64 `unit:"J" help:"lost in leads and fuse"`
	StoreR   float64 `unit:"J" name:"store_loss" help:"lost in the store's resistance"`
	Diodes   float64 `unit:"J"`
	Gears    float64 `unit:"J"`
	Drag     float64 `unit:"J"`
	Eddy     float64 `unit:"J" help:"lost to eddy currents in the wire, which the field sweeps; 0 if not known"`
	Leakage  float64 `unit:"J"`
	Settling float64 `unit:"J" help:"lost within a store that has a slow branch, as it takes its share"`
}

// HandChargeResult is how a charge by hand went.
type HandChargeResult struct {
	Time float64 `unit:"s" show:"1" symbol:"t"`
	ChargeSum
	Efficiency      float64     `unit:"%" help:"stored of the work" symbol:"eta"`
	Turns           float64     `unit:"1" help:"of the crank"`
	PeakTorque      float64     `unit:"N·m" show:"3" help:"at the crank, the mean over a turn of the emf"`
	PulseTorque     float64     `unit:"N·m" help:"at the crank, the largest within a turn of the emf, by a rigid drive" asked:"history"`
	PeakPower       float64     `unit:"W" help:"at the crank"`
	PeakCurrent     float64     `unit:"A" help:"mean over a turn of the emf, into the store" asked:"history"`
	WireCurrent     float64     `unit:"A" help:"rms in one coil over the charge"`
	CoilTemperature *float64    `unit:"°C" show:"4" help:"of the copper at the end; not known where its mass is not"`
	Ceiling         float64     `unit:"V" help:"where the wanted cadence would end"`
	Reactance       float64     `unit:"1" help:"of the coils at the wanted cadence, by the resistance in their path"`
	SlowVoltage     *float64    `unit:"V" help:"of the store's slow branch at the end, if it has one"`
	SettledVoltage  *float64    `unit:"V" help:"to which such a store then settles by itself"`
	History         []ChargeRow `asked:"history"`
	model.Cautions
}

// HandCharge turns a crank until a store is charged: how long, how hard, and
// where the work goes.
//
// Formula: dV/dt = (I(V, ω) − V/R_leak − I_slow)/C(V), I_slow = (V − V_slow)/R_slow where there is a slow branch, with the bridge's mean current, the coils' inductance worked in; at the start with one phase and no inductance I = 2/(π·R)·(E·cos θ − X·(π/2 − θ)), E = k·ω·u, X = V1 + 2·Vd, θ = asin(X/E), R = R_ph + R_lead + R_store; torque at the crank T = (P_e + k_e·(ω·u)²)/(ω·η) + T_drag, P_e = 2/(π·R)·(E²·((π/2 − θ)/2 + sin(2·θ)/4) − E·X·cos θ), P = T·ω; the cadence ω is the wanted one, lowered where crank power or torque would pass its limit; m·c·dT/dt = copper + eddy − heat_loss·(T − surroundings), c = 385 J/(kg·K), heat_loss 10 W/(m²·K) of the windings' surface, and R(T) follows; in all W = W_st + W_cu + W_lead + W_store + W_d + W_gear + W_drag + W_eddy + W_leak + W_set, η_c = W_st/W
//
// Letters: k generator.phase_constant; R_ph generator.phase_resistance; R_lead generator.lead_resistance; R_store store.resistance; Vd generator.diode_drop; k_e generator.eddy_constant; u gearing; η gear_efficiency; T_drag drag; V1 from; I = at 1 history.I; ω = at 1 history.cadence; T = at 1 history.torque; P = at 1 history.P; W = work; W_st = stored; W_cu = copper; W_lead = leads; W_store = store_loss; W_d = diodes; W_gear = gears; W_drag = drag; W_eddy = eddy; W_leak = leakage; W_set = settling; η_c = efficiency.
//
// Validity: the voltage stands still over a turn of the emf; the rotor's own
// inertia is left out, and so is what holds heat beside the copper, which cools within no less than 1 s; still air takes 5 to
// 25 W/(m²·K); to 1e-9.
//
// Source: t = ∫ C dV/I(V); sum of energies; heat capacity of copper: CRC Handbook of Chemistry
// and Physics, from memory; still air: heat-transfer textbooks, from memory; eddy loss: C. R. Sullivan, IEEE Trans. Power Electron. 16 (2001) 142
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
	in.Looks = model.BoundedLooks(mostLooks)
	out, err := in.charge(ctx)
	if err = in.followed(err); err != nil {
		return HandChargeResult{}, err
	}
	return out, nil
}

func (in *HandChargeInput) charge(ctx context.Context) (HandChargeResult, error) {
	if err := in.reaches(); err != nil {
		return HandChargeResult{}, err
	}
	out, err := in.run(ctx)
	if err == nil {
		err = in.caution(ctx, &out)
	}
	return out, err
}

func (in *HandChargeInput) check() error {
	err := require.All(require.Positive("generator.phase_constant", in.Generator.PhaseConstant, "V·s/rad"),
		require.Positive("generator.phase_resistance", in.Generator.PhaseResistance, "Ω"),
		require.Positive("store.capacitance", in.Store.Capacitance, "F"),
		require.Positive("cadence", in.Cadence, "rad/s"), require.Positive("gearing", in.Gearing, "1"),
		require.Positive("gear_efficiency", in.GearEfficiency, "1"), require.Positive("to", in.To, "V"),
		require.NotNegative("from", in.From, "V"), require.NotNegative("drag", in.Drag, "N·m"),
		require.NotNegative("store.resistance", in.Store.Resistance, "Ω"),
		require.In("store", in.Store.Check(in.Store.Capacitance, in.Store.RatedVoltage)))
	if err == nil && in.To <= in.From {
		err = &model.Error{Field: "to", Summary: "the store is there already, at {0}",
			Values: []model.Value{model.In(in.From, "V")}, Hint: "give a higher voltage than from"}
	}
	return cmp.Or(err, in.checkWarmth(), in.checkHeat())
}

// checkWarmth refuses a machine to be warmed whose copper is so cold or hot that its
// resistance is no straight line.
func (in *HandChargeInput) checkWarmth() error {
	const coldest, hottest = zeroCelsius - 50, zeroCelsius + 200
	m := in.Generator
	if in.CoilTemperature == nil && m.CopperMass == 0 || m.CoilTemperature >= coldest && m.CoilTemperature <= hottest {
		return nil
	}
	return &model.Error{Field: "generator.coil_temperature", Summary: "is {0}, outside the {1} to {2} of coils",
		Values: []model.Value{model.In(m.CoilTemperature-zeroCelsius, "°C"), model.In(coldest-zeroCelsius, "°C"), model.In(hottest-zeroCelsius, "°C")},
		Hint:   "give the coils' temperature where the coil is wound"}
}

// soonest is the time constant, s, within which no coil gives off its heat: a tenth of
// a millimetre of copper in a gale of 100 W/(m²·K), the most of moving air (textbooks,
// from memory), takes 3 s. What is faster no step could follow for the length of a charge.
const soonest = 1

// checkHeat refuses coils that would take the air's temperature at once.
func (in *HandChargeInput) checkHeat() error {
	heat, shed := in.Generator.CopperMass*copperHeat, in.shed()
	if heat == 0 || heat >= soonest*shed {
		return nil
	}
	values := []model.Value{model.In(shed, "W/K"), model.In(heat, "J/K"), model.In(heat/shed, "s"), model.In(heat/soonest, "W/K")}
	if in.HeatLoss == nil {
		return &model.Error{Field: "generator.copper_mass", Summary: "holds {1}, of which its surface gives off {0}, so that the coils cool within {2}",
			Values: values, Hint: "give the mass of all the copper, or what it gives off as heat_loss"}
	}
	return &model.Error{Field: "heat_loss", Summary: "is {0} for copper that holds {1}, so that the coils cool within {2}",
		Values: values, Hint: "a coil gives off some 10 W/(m²·K) in still air: give {3} at most"}
}

// arrives reports whether there is a current left at the end: it falls as the
// voltage rises, and with the cadence. An arm that has one while it turns slower than it could
// need not be looked for closely.
func (in *HandChargeInput) arrives() bool {
	const slowly = 0.1 // of the way from where a current begins
	a := in.arm(in.start())
	if !(a.turning(in.To, in.Cadence).net > 0) {
		return false
	}
	onset := (in.To + 2*a.machine.leastDrop()) / (a.machine.CeilingConstant * a.Gearing)
	p := a.turning(in.To, onset+slowly*(a.Cadence-onset))
	if p.net > 0 && a.over(p) < 0 && p.cadence < a.shy() {
		return true
	}
	return a.at(in.To).net > 0
}
