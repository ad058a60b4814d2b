package flight

import (
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/numeric"
)

// A FlightStore is what a flight reads of a store.
type FlightStore struct {
	Capacitance       float64  `unit:"F" range:"(0,)" help:"at the terminals" symbol:"C"`
	Resistance        float64  `unit:"Ω" range:"[0,)" default:"0 Ω" help:"in series" symbol:"R"`
	RatedVoltage      *float64 `unit:"V" range:"(0,)" help:"highest voltage that the maker allows" symbol:"V_rated"`
	SafeVoltage       *float64 `unit:"V" range:"(0,)" help:"at which no cell can pass its rating"`
	LeakageResistance *float64 `unit:"Ω" range:"(0,)" help:"across it at rest"`
	twobranch.Fields
}

func (s FlightStore) check(record string) error {
	bounds := []error{require.Positive("capacitance", s.Capacitance, "F"),
		require.NotNegative("resistance", s.Resistance, "Ω"), s.Fields.Check(s.Capacitance, s.RatedVoltage)}
	if s.LeakageResistance != nil {
		bounds = append(bounds, require.Positive("leakage_resistance", *s.LeakageResistance, "Ω"))
	}
	return require.In(record, bounds...)
}

// leak is the current that the store loses within itself.
func (s FlightStore) leak(v float64) float64 {
	if s.LeakageResistance == nil {
		return 0
	}
	return v / *s.LeakageResistance
}

// A circuit is store, leads, speed control, motor, propeller and radio in one.
// The radio draws a constant current (linear) or a constant power (switching);
// what speed control and regulator take for themselves is a constant current.
type circuit struct {
	drive                    drive.DriveModel
	disc                     *drive.Disc
	store                    FlightStore
	law                      twobranch.Law // of the store
	radioCurrent, radioPower float64
	least                    float64 // at the terminals, where the radio fails; 0 for none
	failed                   bool    // the radio has
	density                  float64
	pull, twist              float64 // ρ·D⁴ and ρ·D⁵/(2π), for thrust and torque
	emf                      float64 // of the motor, by the propeller's turn a second
	sag                      float64 // V, of a pulsing current, where the next is looked for
	duty                     float64 // and its duty
	flows                    bool    // throughout
}

func newCircuit(drive drive.DriveModel, d *drive.Disc, store FlightStore, density float64) *circuit {
	square := d.Diameter * d.Diameter
	return &circuit{drive: drive, disc: d, store: store, law: store.law(), density: density, radioCurrent: drive.SpeedControl.IdleCurrent,
		pull: density * square * square, twist: density * square * square * d.Diameter / (2 * math.Pi),
		emf: drive.EmfByTurns()}
}

// A current is what flows at a moment, and what the propeller does with it.
type current struct {
	terminal float64 // V, of the pack
	radio    float64 // A, out of the pack
	pack     float64 // A, out of the pack for the motor
	motor    float64 // A, in the winding
	square   float64 // A², the mean of its square
	throttle float64
	turns    float64 // of the propeller, in a second
	thrust   float64
	torque   float64
	kind     kind
	margin   float64 // from that to another, above nought in one of the two and below in the other
}

// A kind is how the winding's current flows: where it changes, all else has a bend.
type kind uint8

const (
	steadily   kind = iota
	throughout      // it pulses and does not end
	broken          // it ends within each period
	windmilling
)

// pulses notes how a chopped current flows.
func (c *current) pulses(by drive.Chopped) {
	if c.kind, c.margin = broken, by.Margin; by.Through {
		c.kind = throughout
	}
}

// terminal is the pack's voltage and the radio's current while the motor takes
// current and power out of it.
func (k *circuit) terminal(rested, current, power float64) (volts, radio float64) {
	if k.failed {
		return k.starved(rested, current, power)
	}
	volts = under(rested-(current+k.radioCurrent)*k.store.Resistance, k.radioPower+power, k.store.Resistance)
	radio = k.radioCurrent
	if k.radioPower > 0 && volts > 0 {
		radio += k.radioPower / volts
	}
	return volts, radio
}

// starved is terminal below the radio's minimum. From there on the radio draws
// in proportion to the voltage, so that it never drains the pack below zero.
func (k *circuit) starved(rested, current, power float64) (volts, radio float64) {
	conductance := k.starvedConductance()
	part := 1 / (1 + conductance*k.store.Resistance)
	volts = max(under((rested-current*k.store.Resistance)*part, power, k.store.Resistance*part), 0)
	return volts, conductance * volts
}

func (k *circuit) starvedConductance() float64 {
	return (k.radioCurrent + k.radioPower/k.least) / k.least
}

// under is the voltage of a source that gives a power through a resistance:
// half of its own at the most that it can give.
func under(open, power, resistance float64) float64 {
	return (open + math.Sqrt(max(open*open-4*power*resistance, 0))) / 2
}

// resting is the circuit with the motor off.
func (k *circuit) resting(rested float64) current {
	v, radio := k.terminal(rested, 0, 0)
	return current{terminal: v, radio: radio}
}

// inner is the resistance that carries the motor's own current.
func (k *circuit) inner() float64 { return k.drive.Motor.Resistance + k.drive.SpeedControl.Resistance }

// A demand is what a task asks of the motor at a rested voltage: zero where its
// current and back voltage fit, above where they are too much, with the
// derivatives by both. It grows with both.
type demand func(motor, emf float64) (over, byMotor, byEmf float64)

// throttled is the demand of a throttle.
func (k *circuit) throttled(rested, on float64) demand {
	if switched, ok := k.drive.Chopper(on); ok {
		return k.chopped(rested, on, switched)
	}
	path := k.inner() + on*on*k.drive.LeadResistance
	return func(motor, emf float64) (float64, float64, float64) {
		v, sag := k.sagging(rested, on*motor)
		return emf + motor*path - on*v, path + on*on*sag, 1
	}
}

// sagging is the pack's voltage under a current, and what it loses by the ampere.
func (k *circuit) sagging(rested, current float64) (volts, loses float64) {
	r := k.store.Resistance
	v, _ := k.terminal(rested, current, 0)
	if k.failed {
		return v, r / (1 + k.starvedConductance()*r)
	}
	open := rested - (current+k.radioCurrent)*r
	if spread := 2*v - open; spread > 0 {
		return v, r * v / spread
	}
	return v, r
}

// powered is the demand of a power out of the pack, and how it leaves it.
func (k *circuit) powered(rested, power float64) (of demand, volts, radio, pack float64) {
	volts, radio = k.terminal(rested, 0, power)
	pack = power / max(volts, 1e-9)
	left := max(power-pack*pack*k.drive.LeadResistance, 0)
	inner := k.inner()
	if switched, ok := k.drive.Chopper(0); ok {
		return k.choppedPower(volts-pack*k.drive.LeadResistance, pack, switched), volts, radio, pack
	}
	return func(motor, emf float64) (float64, float64, float64) {
		root := math.Sqrt(emf*emf + 4*inner*left)
		takes := 2 * left / (emf + root)
		return motor - takes, 1, takes / root
	}, volts, radio, pack
}

// atThrottle balances the torques at a throttle and an airspeed.
func (k *circuit) atThrottle(rested, on, airspeed, near float64) current {
	return k.throttledAt(rested, on, k.balance(airspeed, near, k.throttled(rested, on)), airspeed)
}

// throttledAt is the drive where its torques balance. Where the wind turns the
// propeller faster than the motor would, nothing flows back, and it windmills.
func (k *circuit) throttledAt(rested, on, n, airspeed float64) current {
	out := k.at(n, airspeed)
	if out.motor < 0 {
		out = k.at(k.disc.Windmill(airspeed, k.density, k.drive.Holding()), airspeed)
		out.motor, out.kind = 0, windmilling
	}
	out.throttle, out.pack, out.square = on, on*out.motor, out.motor*out.motor
	if switched, ok := k.drive.Chopper(on); ok && out.motor > 0 {
		_, c, _ := k.through(rested, k.emf*out.turns, switched.During(on))
		out.pack, out.square = c.Pack, c.Square
		out.pulses(c)
	}
	out.terminal, out.radio = k.terminal(rested, out.pack, 0)
	return out
}

// atPower balances them where the motor takes a power out of the pack. A
// throttle above 1 says that it cannot.
func (k *circuit) atPower(rested, power, airspeed, near float64) current {
	of, _, _, _ := k.powered(rested, power)
	return k.poweredAt(rested, power, k.balance(airspeed, near, of), airspeed)
}

func (k *circuit) poweredAt(rested, power, n, airspeed float64) current {
	out := k.at(n, airspeed)
	_, out.terminal, out.radio, out.pack = k.powered(rested, power)
	out.throttle, out.square = out.pack/max(out.motor, 1e-12), out.motor*out.motor
	if switched, ok := k.drive.Chopper(0); ok {
		into, emf := out.terminal-out.pack*k.drive.LeadResistance, k.emf*n
		out.square = max((into*out.pack-emf*out.motor)/k.inner(), 0)
		if full := switched.At(into, emf, 1); full.Pack >= out.pack {
			out.throttle = switched.DutyOfPack(into, emf, out.pack)
			out.pulses(switched.At(into, emf, out.throttle))
		}
	}
	return out
}

// atTurns finds the throttle that turns the propeller at n. fits is negative
// where full throttle does not, and is volts.
func (k *circuit) atTurns(rested, n, airspeed float64) (out current, fits float64) {
	out = k.at(n, airspeed)
	need := k.emf*n + out.motor*k.inner()
	full, _ := k.terminal(rested, out.motor, 0)
	fits = full - out.motor*k.drive.LeadResistance - need
	if switched, ok := k.drive.Chopper(0); ok && fits > 0 {
		return k.choppedTurns(rested, out, switched), fits
	}
	r := k.store.Resistance
	out.radio, out.square = k.radioCurrent, out.motor*out.motor
	for range 40 { // once for a linear regulator; the pack's resistance is small, so the change shrinks fast
		open := rested - out.radio*r
		out.throttle = 2 * need / (open + math.Sqrt(max(open*open-4*out.motor*(r+k.drive.LeadResistance)*need, 0)))
		out.pack = out.throttle * out.motor
		last := out.radio
		out.terminal, out.radio = k.terminal(rested, out.pack, 0)
		if math.Abs(out.radio-last) <= 1e-15*out.radio {
			break
		}
	}
	return out, fits
}

// at is propeller and motor at a speed: the winding carries what the torque asks.
func (k *circuit) at(n, airspeed float64) current {
	ct, cp, _ := k.disc.Coefficients(n, airspeed)
	thrust, torque := ct*k.pull, cp*k.twist
	return current{turns: n, thrust: thrust, torque: torque, motor: k.drive.Current(torque)}
}

// balance is the speed, in turns a second, where a demand passes zero. Past
// measured data the nearest speed within them answers, see [circuit.within].
// near is a speed close to the answer, if one is known, else 0.
func (k *circuit) balance(airspeed, near float64, over demand) float64 {
	if n, ok := k.steps(airspeed, near, over); ok {
		return n
	}
	f := func(n float64) float64 {
		x, _, _ := over(k.at(n, airspeed).motor, k.emf*n)
		return x
	}
	low, high := k.disc.Span(airspeed)
	if math.IsInf(high, 1) {
		high = low + 64
	}
	below := f(low)
	if below >= 0 {
		return low
	}
	above := f(high)
	for ; above < 0 && high < 1e6 && k.disc.Endless(airspeed); above = f(high) {
		low, below, high = high, above, 2*high
	}
	if above <= 0 {
		return high
	}
	return numeric.Crossing(f, low, high, below, above)
}

// steps is balance by Newton's steps; false where they do not settle.
func (k *circuit) steps(airspeed, n float64, over demand) (float64, bool) {
	if n == 0 {
		n = max(64, 1.5*airspeed/k.disc.Diameter)
	}
	for range 20 {
		g, ok := k.disc.Gradient(n, airspeed)
		amperes := k.drive.Amperes(g.CP) * k.twist
		x, byMotor, byEmf := over(k.drive.Motor.IdleCurrent+amperes*g.CP, k.emf*n)
		step := x / (byMotor*amperes*g.CPByTurns + byEmf*k.emf)
		n -= step
		if !ok || !(n > 0) || n > 1e6 {
			return 0, false
		}
		if math.Abs(step) < 1e-8*n { // its square is what is left
			_, ok := k.disc.Gradient(n, airspeed)
			return n, ok
		}
	}
	return 0, false
}

// within reports whether a balance lies inside measured data, not at their edge.
func (k *circuit) within(n, airspeed float64) bool {
	low, high := k.disc.Span(airspeed)
	return n >= low*(1+1e-9) && n <= high*(1-1e-9)
}
