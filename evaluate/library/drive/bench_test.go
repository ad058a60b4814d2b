package drive

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// A chopper's textbook case: 6 V, back voltage 3 V, 1 Ω, 30 µH, 8 kHz, mean
// 1.2 A: duty 0.5541, 1.0139 A out of the pack, mean square 2.484 A².
func TestPartThrottle(t *testing.T) {
	const source = "step-down chopper with a back voltage, discontinuous, by hand"
	got := kit.Must(PartThrottle(PartThrottleInput{Voltage: 6, Emf: 3, Resistance: 1, Inductance: 30e-6, Frequency: 8000, Current: new(1.2)}))(t)
	kit.Near(t, "duty, "+source, got.Throttle, 0.5541, kit.Digits(4))
	kit.Near(t, "pack, "+source, got.PackCurrent, 1.0139, kit.Digits(5))
	kit.Near(t, "mean square, "+source, got.MeanSquare, 2.484, kit.Digits(4))
	if got.Continuous {
		t.Error("it flows all through")
	}
	back := kit.Must(PartThrottle(PartThrottleInput{Voltage: 6, Emf: 3, Resistance: 1, Inductance: 30e-6, Frequency: 8000, Throttle: &got.Throttle}))(t)
	kit.Near(t, "and back", back.Current, 1.2, 1e-12)
	_, err := PartThrottle(PartThrottleInput{Voltage: 6, Emf: 3, Resistance: 1, Inductance: 30e-6, Frequency: 8000, Current: new(3.1)})
	kit.Refuses(t, err, "current")
	_, err = PartThrottle(PartThrottleInput{Voltage: 6, Emf: 3, Resistance: 1, Inductance: 30e-6, Frequency: 8000, Throttle: new(1.1)})
	kit.Refuses(t, err, "throttle")
	_, err = PartThrottle(PartThrottleInput{Voltage: 6, Emf: 3, Resistance: 1, Inductance: 0, Frequency: 8000, Throttle: new(0.5)})
	kit.Refuses(t, err, "inductance")
}

// The independent route steps the current through many periods by small times,
// clamped at zero, until it repeats.
func TestPartThrottleStepped(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	for range 40 {
		v, r := 4+8*random.Float64(), 0.1+random.Float64()
		e, l, f, d := v*(0.1+0.8*random.Float64()), 5e-6+1e-4*random.Float64(), 1000+30000*random.Float64(), 0.1+0.85*random.Float64()
		got := kit.Must(PartThrottle(PartThrottleInput{Voltage: v, Emf: e, Resistance: r, Inductance: l, Frequency: f, Throttle: &d}))(t)
		const steps = 4000
		h := 1 / f / steps
		i, periods := 0.0, int(20*l/r*f)+20
		var mean, pack, square float64
		for p := range periods {
			mean, pack, square = 0, 0, 0
			for s := range steps {
				drive := -e
				on := float64(s)+0.5 < d*steps
				if on {
					drive += v
				}
				next := max(drive/r+(i-drive/r)*math.Exp(-r/l*h), 0)
				if p == periods-1 {
					m := (i + next) / 2
					mean, square = mean+m/steps, square+m*m/steps
					if on {
						pack += m / steps
					}
				}
				i = next
			}
		}
		kit.Within(t, "mean", got.Current, mean, 2e-3*v/r)
		kit.Within(t, "pack", got.PackCurrent, pack, 2e-3*v/r)
		kit.Within(t, "mean square", got.MeanSquare, square, 4e-3*v*v/r/r)
		kit.Within(t, "energy", e*got.Current+r*got.MeanSquare, v*got.PackCurrent, 1e-9*v*v/r)
	}
}

// With a large inductance the current is smooth, and the drive works as without.
func TestSmoothIsItsLimit(t *testing.T) {
	smooth, chopped := lapwing(), lapwing()
	chopped.Motor.Inductance, chopped.SpeedControl.Frequency = new(0.1), new(20e3)
	random := rand.New(rand.NewPCG(17, 18))
	for range 50 {
		c, v := anyConditions(random), 7+6*random.Float64()
		c.Throttle = 0.6 + 0.4*random.Float64()
		a := kit.Must(OperatingPoint(OperatingPointInput{smooth, v, c}))(t)
		if a.MotorCurrent < 0.1 {
			continue
		}
		b := kit.Must(OperatingPoint(OperatingPointInput{chopped, v, c}))(t)
		kit.Near(t, "speed", b.Speed, a.Speed, 1e-6)
		kit.Near(t, "current", b.Current, a.Current, 1e-5)
		if kit.Raised(b.List, "part-throttle-ripple") {
			t.Error("the ripple is worked, and told to be left out")
		}
	}
}

// A short pulse takes more of the pack for its thrust, and energy closes.
func TestChoppedDrive(t *testing.T) {
	m := lapwing()
	m.Motor.Inductance, m.SpeedControl.Frequency = new(30e-6), new(8e3)
	c := Conditions{Throttle: 0.5, Airspeed: 7, SourceResistance: 0.05, RadioCurrent: 0.1, Density: 1.225}
	got := kit.Must(OperatingPoint(OperatingPointInput{m, 11, c}))(t)
	sum := got.ShaftPower + got.IdleLoss + got.MotorLoss + got.ControlLoss + got.LeadLoss + got.SourceLoss + 0.1*got.TerminalVoltage
	kit.Near(t, "power out of the pack", sum, 11*got.Current, 1e-9)
	if got.Current-0.1 <= 0.5*got.MotorCurrent {
		t.Errorf("%g A of the pack for %g A in the motor", got.Current, got.MotorCurrent)
	}
	back, w, err := m.Required(first(t)(m.Check("")), got.Thrust, c)
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "the voltage for that thrust", back, 11, 1e-9)
	kit.Near(t, "its current", w.Current, got.Current, 1e-9)
}

func first(t *testing.T) func(*Disc, error) *Disc {
	return func(d *Disc, err error) *Disc {
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
}

// 12.5 V read as three cells, cut at 9.0 V where 5.5 V is wanted: 40.3 % of the
// energy between is stranded (energy of a capacitor, by hand: 50.75/126).
func TestLithiumGuess(t *testing.T) {
	got := kit.Must(LithiumGuess(LithiumGuessInput{StartVoltage: 12.5, CutOff: new(5.5), FullCell: 4.3, CellCutOff: 3}))(t)
	if got.Cells != 3 || !kit.Raised(got.List, "control-guesses-cells") {
		t.Errorf("%+v", got)
	}
	kit.Near(t, "cut-off", got.CutOff, 9, 1e-12)
	kit.Near(t, "stranded, energy of a capacitor", *got.Stranded, 0.403, kit.Digits(3))
	fits := kit.Must(LithiumGuess(LithiumGuessInput{StartVoltage: 8.4, CutOff: new(6.0), FullCell: 4.3, CellCutOff: 3}))(t)
	if fits.Cells != 2 || kit.Raised(fits.List, "control-guesses-cells") {
		t.Errorf("%+v", fits)
	}
	_, err := LithiumGuess(LithiumGuessInput{StartVoltage: 5, CutOff: new(6.0), FullCell: 4.3, CellCutOff: 3})
	kit.Refuses(t, err, "start_voltage")
	_, err = LithiumGuess(LithiumGuessInput{StartVoltage: 5, FullCell: 0, CellCutOff: 3})
	kit.Refuses(t, err, "full_cell")
}

// The other route: run a pack down in small steps, and see what is left.
func TestLithiumGuessBySum(t *testing.T) {
	got := kit.Must(LithiumGuess(LithiumGuessInput{StartVoltage: 16, CutOff: new(6.0), FullCell: 4.3, CellCutOff: 3}))(t)
	all, left := 0.0, 0.0
	const dv = 1e-4
	for v := 16.0; v > 6; v -= dv {
		all += v * dv
		if v < got.CutOff {
			left += v * dv
		}
	}
	kit.Near(t, "stranded", *got.Stranded, left/all, 1e-4)
}

// 7,900 rpm on 8 V and 0.4 A, 0.25 Ω: 1000 rpm/V (textbooks).
func TestMotorFromRuns(t *testing.T) {
	run := MotorFromRunsInput{Voltage: []float64{8}, Current: []float64{0.4}, Speed: []float64{7900 * rpm}, Resistance: new(0.25)}
	got := kit.Must(MotorFromRuns(run))(t)
	kit.Near(t, "Kv, "+firstOrder, got.Kv/rpm, 1000, 1e-12)
	kit.Near(t, "idle current", got.IdleCurrent, 0.4, 0)
	for field, spoil := range map[string]func(*MotorFromRunsInput){
		"voltage":        func(in *MotorFromRunsInput) { in.Voltage = nil },
		"current":        func(in *MotorFromRunsInput) { in.Current = []float64{0} },
		"resistance":     func(in *MotorFromRunsInput) { in.Resistance = new(25.0) },
		"loaded_voltage": func(in *MotorFromRunsInput) { in.Resistance = nil },
		"loaded_speed": func(in *MotorFromRunsInput) {
			in.Resistance, in.LoadedVoltage, in.LoadedCurrent, in.LoadedSpeed = nil, new(8.0), new(5.0), new(9000*rpm)
		},
	} {
		in := run
		spoil(&in)
		_, err := MotorFromRuns(in)
		kit.Refuses(t, err, field)
	}
}

// A made-up motor's own runs give it back, its resistance from the loaded point.
func TestMotorFromRunsInverse(t *testing.T) {
	random := rand.New(rand.NewPCG(19, 20))
	for range 50 {
		m := MotorModel{Kv: (300 + 3000*random.Float64()) * rpm, Resistance: 0.05 + 0.5*random.Float64(), IdleCurrent: 0.2 + 0.5*random.Float64()}
		var in MotorFromRunsInput
		for _, v := range []float64{5, 8, 11} {
			in.Voltage, in.Current = append(in.Voltage, v), append(in.Current, m.IdleCurrent)
			in.Speed = append(in.Speed, kit.Must(MotorPoint(MotorPointInput{m, v, m.IdleCurrent}))(t).Speed)
		}
		i := 4 + 3*random.Float64()
		speed := kit.Must(MotorPoint(MotorPointInput{m, 10, i}))(t).Speed
		in.LoadedVoltage, in.LoadedCurrent, in.LoadedSpeed = new(10.0), &i, &speed
		got := kit.Must(MotorFromRuns(in))(t)
		kit.Near(t, "Kv", got.Kv, m.Kv, 1e-9)
		kit.Near(t, "resistance", got.Resistance, m.Resistance, 1e-8)
		kit.Within(t, "scatter", got.Scatter, 0, 1e-9)
	}
}

// The published static rows, forces to coefficients: 4029 rpm, 2.66239 N and
// 18.2738 W on 0.254 m are CT 0.1158 and CP 0.0466.
func TestStaticCoefficients(t *testing.T) {
	row := StaticCoefficientsInput{Diameter: 0.254, Speed: []float64{4029 * rpm}, Thrust: []float64{2.66239}, Power: []float64{18.2738}, Density: 1.225}
	got := kit.Must(StaticCoefficients(row))(t)
	kit.Near(t, "CT, "+uiuc, got.CT0, 0.1158, kit.Digits(5))
	kit.Near(t, "CP, "+uiuc, got.CP0, 0.0466, kit.Digits(5))
	kit.Near(t, "figure of merit, "+uiuc, got.FigureOfMerit, 0.67471, kit.Digits(5))
	two := StaticCoefficientsInput{Diameter: 0.254, Speed: []float64{4029 * rpm, 6528 * rpm}, Thrust: []float64{2.66239, 7.84039}, Power: []float64{18.2738, 88.5698}, Density: 1.225}
	both := kit.Must(StaticCoefficients(two))(t)
	kit.Near(t, "mean, "+uiuc, both.CT0, (0.1158+0.1299)/2, kit.Digits(5))
	kit.Near(t, "of two readings half their difference", both.UCT0, (0.1299-0.1158)/2, 1e-3)
	kit.Near(t, "they scatter together", both.Covariance[0][1], both.UCT0*both.UCP0, 1e-9)
	for field, spoil := range map[string]func(*StaticCoefficientsInput){
		"speed": func(in *StaticCoefficientsInput) { in.Thrust = nil }, "diameter": func(in *StaticCoefficientsInput) { in.Diameter = 0 },
		"motor":  func(in *StaticCoefficientsInput) { in.Power, in.Current = nil, []float64{2} },
		"thrust": func(in *StaticCoefficientsInput) { in.Thrust = []float64{20} },
		"current": func(in *StaticCoefficientsInput) {
			in.Power, in.Current, in.Motor = nil, []float64{0.1}, new(lapwing().Motor)
		},
	} {
		in := row
		spoil(&in)
		_, err := StaticCoefficients(in)
		kit.Refuses(t, err, field)
	}
}

// A drive standing still, read by thrust, speed and current, has the propeller's
// own coefficients.
func TestStaticCoefficientsInverse(t *testing.T) {
	m := lapwing()
	in := StaticCoefficientsInput{Diameter: m.Propeller.Diameter, Motor: &m.Motor, Density: 1.225}
	for _, v := range []float64{6, 9, 12} {
		w := kit.Must(OperatingPoint(OperatingPointInput{m, v, Conditions{Throttle: 1, Density: 1.225}}))(t)
		in.Speed, in.Thrust, in.Current = append(in.Speed, w.Speed), append(in.Thrust, w.Thrust), append(in.Current, w.MotorCurrent)
	}
	got := kit.Must(StaticCoefficients(in))(t)
	kit.Near(t, "CT0", got.CT0, 0.105, 1e-9)
	kit.Near(t, "CP0", got.CP0, 0.048, 1e-9)
	kit.Within(t, "scatter", got.UCP0, 0, 1e-9)
}

// slopesHold holds the slopes of a pulsing current to differences, away from where its kind changes.
func slopesHold(t *testing.T, k Chopper, v, e, d float64, c Chopped) {
	t.Helper()
	h, r := 1e-5*v, k.Resistance
	if math.Abs(c.Margin) < 1e-3 || v-e < 100*h || e < 100*h {
		return
	}
	by := func(of func(h float64) float64) float64 { return (of(h) - of(-h)) / (2 * h) }
	s := k.During(d).Slopes(v, e, c)
	for _, x := range []struct {
		name      string
		got, want float64
	}{
		{"mean by volts", s.MeanByVolts, by(func(h float64) float64 { return k.At(v+h, e, d).Mean })},
		{"mean by emf", s.MeanByEmf, by(func(h float64) float64 { return k.At(v, e+h, d).Mean })},
		{"pack by volts", s.PackByVolts, by(func(h float64) float64 { return k.At(v+h, e, d).Pack })},
		{"pack by emf", s.PackByEmf, by(func(h float64) float64 { return k.At(v, e+h, d).Pack })},
	} {
		kit.Within(t, x.name, x.got, x.want, 1e-5/r)
	}
	if c.Through {
		return
	}
	ends := k.Ending(v, e, d)
	kit.Within(t, "ending, mean", ends.Mean, c.Mean, 1e-12*v/r)
	kit.Within(t, "ending, pack", ends.Pack, c.Pack, 1e-12*v/r)
	h = min(1e-5, d/10)
	kit.Within(t, "mean by duty", ends.MeanByDuty, by(func(h float64) float64 { return k.Ending(v, e, d+h).Mean }), 1e-4*v/r)
	kit.Within(t, "pack by duty", ends.PackByDuty, by(func(h float64) float64 { return k.Ending(v, e, d+h).Pack }), 1e-4*v/r)
}

// The duty for a mean current, and for one out of the pack, gives it back, with
// the current flowing all through or not.
func TestDuties(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	through, ends := 0, 0
	for range 3000 {
		v, r := 4+8*random.Float64(), 0.05+random.Float64()
		k := NewChopper(r, 2e-6+2e-4*random.Float64(), 500+40000*random.Float64())
		e, d := v*random.Float64(), 0.01+0.98*random.Float64()
		c := k.At(v, e, d)
		if c.Mean < 1e-6*v/r {
			continue
		}
		if c.Through {
			through++
		} else {
			ends++
		}
		slopesHold(t, k, v, e, d, c)
		kit.Within(t, "by the mean", k.At(v, e, k.DutyOfMean(v, e, c.Mean)).Mean, c.Mean, 1e-11*v/r)
		kit.Within(t, "by the pack's", k.At(v, e, k.DutyOfPack(v, e, c.Pack)).Pack, c.Pack, 1e-11*v/r)
	}
	if through < 300 || ends < 300 {
		t.Errorf("%d through and %d ending show little", through, ends)
	}
	if d := NewChopper(1, 1e-5, 1e4).DutyOfMean(6, 3, 5); d != 1 {
		t.Errorf("more than full throttle gives: %g", d)
	}
}
