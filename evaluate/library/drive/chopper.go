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

// A Pulse is a chopper at one duty. What is left of a current when its time on or off is
// over depends on no voltage.
type Pulse struct {
	Chopper
	duty, on, off     float64 // s of a period
	afterOn, afterOff float64 // shares that are left
}

// During is the chopper at a duty.
func (k Chopper) During(duty float64) Pulse {
	on, off := duty*k.period, (1-duty)*k.period
	return Pulse{k, duty, on, off, math.Exp(-on / k.decay), math.Exp(-off / k.decay)}
}

// At is the current at a source's voltage, a back voltage and a duty. Between
// the switchings it is an exponential, so that all of it is closed.
func (k Chopper) At(volts, emf, duty float64) Chopped {
	if volts <= emf || duty <= 0 {
		return Chopped{}
	}
	return k.During(duty).At(volts, emf)
}

// At is the current at a source's voltage and a back voltage.
func (p Pulse) At(volts, emf float64) Chopped {
	if volts <= emf || p.duty <= 0 {
		return Chopped{}
	}
	up, down := (volts-emf)/p.Resistance, emf/p.Resistance // where it heads to, on and off
	a, b := p.afterOn, p.afterOff
	low := (up*(1-a)*b - down*(1-b)) / (1 - a*b)
	out := Chopped{Through: low > 0, Mean: (p.duty*volts - emf) / p.Resistance, Margin: low / up}
	high := up + (low-up)*a
	if !out.Through {
		low, high = 0, up*(1-a)
		falls := p.decay * math.Log1p(high/down)
		out.Mean = (p.on*volts - (p.on+falls)*emf) / (p.Resistance * p.period)
	}
	out.Ripple = high - low
	out.Pack = (up*p.on + (low-up)*p.decay*(1-a)) / p.period
	out.Square = max((volts*out.Pack-emf*out.Mean)/p.Resistance, 0) // energy over a period
	return out
}

// Slopes are how the means of a pulsing current change with the two voltages, as long as
// it goes on to flow throughout, or to end.
type Slopes struct{ MeanByVolts, MeanByEmf, PackByVolts, PackByEmf float64 }

// Slopes are those of what flows at two voltages.
func (p Pulse) Slopes(volts, emf float64, flows Chopped) Slopes {
	if volts <= emf || p.duty <= 0 {
		return Slopes{}
	}
	rises, whole := 1-p.afterOn, p.Resistance*p.period
	if flows.Through {
		stays := rises * p.afterOff / (1 - p.afterOn*p.afterOff) // of the least current, by the voltage over R
		return Slopes{p.duty / p.Resistance, -1 / p.Resistance, (p.on + (stays-1)*p.decay*rises) / whole, -p.on / whole}
	}
	e := p.Ending(volts, emf, p.duty)
	peak := emf + (volts-emf)*rises
	byEmf := (p.decay*rises*volts/peak - p.decay*math.Log(peak/emf) - p.on) / whole
	return Slopes{e.MeanByVolts, byEmf, e.PackByVolts, (p.decay*rises - p.on) / whole}
}

// An Ending is a current that ends within each period, and how its means change with the
// source's voltage and with the duty.
type Ending struct{ Mean, Pack, MeanByVolts, MeanByDuty, PackByVolts, PackByDuty float64 }

// Ending is the current at a duty, as if it ended by itself however short the period.
func (k Chopper) Ending(volts, emf, duty float64) Ending {
	on, whole := duty*k.period, k.Resistance*k.period
	rest := math.Exp(-on / k.decay)
	rises, over := 1-rest, volts-emf
	peak := emf + over*rises // of the current, times R, above where it falls to
	falls := k.decay * math.Log(peak/emf)
	charged := on - k.decay*rises
	return Ending{
		Mean: (on*over - falls*emf) / whole, Pack: over * charged / whole,
		MeanByVolts: (on - emf*k.decay*rises/peak) / whole, MeanByDuty: over * (1 - emf*rest/peak) / k.Resistance,
		PackByVolts: charged / whole, PackByDuty: over * rises / k.Resistance,
	}
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
