package drive

import (
	"math"

	"inkwing/evaluate/numeric"
)

// A Chopper is a switch that lets a winding at a source for a share of each of
// its periods and short-circuits it for the rest, through a diode that lets
// nothing flow back.
type Chopper struct {
	Resistance float64 // of the path of the winding's current
	decay      float64 // L/R, s
	period     float64 // s
}

// NewChopper is the switch of an inductance at a frequency.
func NewChopper(resistance, inductance, frequency float64) Chopper {
	return Chopper{Resistance: resistance, decay: inductance / resistance, period: 1 / frequency}
}

// A Chopped is a winding's current over a period.
type Chopped struct {
	Mean    float64 // A
	Pack    float64 // A, mean, out of the source
	Square  float64 // A², mean of the square
	Ripple  float64 // A, between the least and the largest
	Through bool    // whether it never ends within the period
	Margin  float64 // least current, below nought where it ends before, by the one it heads to
}

// At is the current at a source's voltage, a back voltage and a duty. Between
// the switchings it is an exponential, so that all of it is closed.
func (k Chopper) At(volts, emf, duty float64) Chopped {
	if volts <= emf || duty <= 0 {
		return Chopped{}
	}
	up, down := (volts-emf)/k.Resistance, emf/k.Resistance // where it heads to, on and off
	on, off := duty*k.period, (1-duty)*k.period
	a, b := math.Exp(-on/k.decay), math.Exp(-off/k.decay)
	low := (up*(1-a)*b - down*(1-b)) / (1 - a*b)
	out := Chopped{Through: low > 0, Mean: (duty*volts - emf) / k.Resistance, Margin: low / up}
	high := up + (low-up)*a
	if !out.Through {
		low, high = 0, up*(1-a)
		falls := k.decay * math.Log1p(high/down)
		out.Mean = (on*volts - (on+falls)*emf) / (k.Resistance * k.period)
	}
	out.Ripple = high - low
	out.Pack = (up*on + (low-up)*k.decay*(1-a)) / k.period
	out.Square = max((volts*out.Pack-emf*out.Mean)/k.Resistance, 0) // energy over a period
	return out
}

// DutyOfMean is the share of the period at which the winding's mean current
// comes to what is wanted; 1 where it does not.
func (k Chopper) DutyOfMean(volts, emf, want float64) float64 {
	duty, _ := k.AtMean(volts, emf, want, 0)
	return duty
}

// AtMean is the duty at which the winding's mean current comes to what is wanted, and what
// flows then; 1 where it does not. near is a duty close to it, if one is known, else 0.
func (k Chopper) AtMean(volts, emf, want, near float64) (duty float64, c Chopped) {
	duty = (emf + want*k.Resistance) / volts // of a smooth current
	if !(duty < 1) {
		return 1, k.At(volts, emf, 1)
	}
	if near <= 0 || near >= duty {
		if c = k.At(volts, emf, duty); c.Through {
			return duty, c
		}
		near = duty
	}
	up, down := (volts-emf)/k.Resistance, emf/k.Resistance
	ends := 0.0
	broken := k.newton(near, func(on float64) (float64, float64) {
		rest := math.Exp(-on / k.decay)
		high := up * (1 - rest)
		falls := k.decay * math.Log1p(high/down)
		ends = on + falls
		return (on*volts - (on+falls)*emf) - want*k.Resistance*k.period, volts - emf*(1+up*rest/(down+high))
	})
	if ends < k.period {
		duty = broken
	}
	return duty, k.At(volts, emf, duty)
}

// DutyOfPack is that for the mean current out of the source.
func (k Chopper) DutyOfPack(volts, emf, want float64) float64 {
	short := func(duty float64) float64 { return k.At(volts, emf, duty).Pack - want }
	most := short(1)
	if most <= 0 {
		return 1
	}
	up := (volts - emf) / k.Resistance
	duty := k.newton(1, func(on float64) (float64, float64) {
		rises := -math.Expm1(-on / k.decay)
		return up*(on-k.decay*rises) - want*k.period, up * rises
	})
	if c := k.At(volts, emf, duty); !c.Through {
		return duty
	}
	return numeric.Crossing(short, 0, 1, -want, most)
}

// newton is the duty at which something of the time on passes zero, for a
// current that ends within the period: it rises ever faster with that time, so
// that steps from above settle.
func (k Chopper) newton(duty float64, of func(on float64) (over, slope float64)) float64 {
	on := duty * k.period
	for range 60 {
		over, slope := of(on)
		step := over / slope
		on -= step
		if math.Abs(step) <= 1e-14*on {
			break
		}
	}
	return on / k.period
}

// behind is the voltage that a source is left with behind a resistance through
// which a load takes a current that grows with it.
func behind(open, resistance float64, takes func(volts float64) float64) float64 {
	if resistance == 0 {
		return open
	}
	short := func(v float64) float64 { return v + resistance*takes(v) - open }
	return numeric.Crossing(short, 0, open, -open, short(open))
}
