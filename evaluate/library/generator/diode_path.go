package generator

import "math"

// leastDrop is a diode's drop where the current ends.
func (m *Machine) leastDrop() float64 {
	if m.DiodeSaturation > 0 {
		return 0
	}
	return m.DiodeDrop
}

// sharedBridges is how many like bridges stand for one of the machine's.
func (m *Machine) sharedBridges() float64 {
	if m.Rectifiers == "each" {
		return float64(max(1, m.ParallelStrings))
	}
	return 1
}

// forward is a diode's drop by its law.
func (m *Machine) forward(current float64) float64 {
	return m.DiodeScale*math.Log1p(current/m.DiodeSaturation) + current*m.DiodeResistance
}

// The law is taken straight through these parts of the peak current, which
// keeps its mean error over a pulse small.
const lowPart, highPart = 0.2, 0.85

// into is the flow into a store's rested voltage v through the diodes. Where
// they have a law it is a straight one over the currents that flow, a drop and
// a resistance in each diode's phase.
func (m *Machine) into(v, rotation, rd float64, near *track) drain {
	if m.DiodeSaturation <= 0 {
		d := m.at(v+2*m.DiodeDrop, rotation, rd, near)
		d.diodes = 2 * m.DiodeDrop * d.mean
		return d
	}
	like := m.sharedBridges()
	crest := m.crest(v, rotation, rd) / like
	low, high := m.forward(lowPart*crest), m.forward(highPart*crest)
	inner, drop := 0.0, 0.0
	if crest > 0 {
		inner = (high - low) / ((highPart - lowPart) * crest)
		drop = high - inner*highPart*crest
	}
	diodes := inner / like // in series with a phase of a star
	if !m.star() {
		diodes *= 2
	}
	through := *m
	through.PhaseResistance += diodes
	d := through.at(v+2*drop, rotation, rd, near)
	heat := d.copper * diodes / through.PhaseResistance
	d.copper -= heat
	d.diodes = 2*drop*d.mean + heat
	return d
}

// crest is the peak current of a bridge with the diodes' law itself, by Newton's steps up
// from where the two drop more than they do: each falls short, since a drop rises ever slower.
func (m *Machine) crest(v, rotation, rd float64) float64 {
	e, r, q := m.PhaseConstant*rotation, m.PhaseResistance+rd, m.reactance(rotation)
	switch {
	case m.star():
		e, r, q = math.Sqrt(3)*e, 2*m.PhaseResistance+rd, 2*q
	case m.Bridges > 1:
		r = m.PhaseResistance // each crests alone; what they share is little
	}
	r = math.Hypot(r, q) // about what the reactance takes off the crest
	open, like := e-v, m.sharedBridges()
	if open <= 0 {
		return 0
	}
	path := like*r + 2*m.DiodeResistance
	most := 2 * m.DiodeScale * math.Log1p(open/(path*m.DiodeSaturation))
	current := max((open-most)/path, open/(path+2*m.DiodeScale/m.DiodeSaturation))
	for range 60 {
		step := (open - 2*m.DiodeScale*math.Log1p(current/m.DiodeSaturation) - path*current) / (2*m.DiodeScale/(current+m.DiodeSaturation) + path)
		current += step
		if !(step > 1e-14*current) {
			break
		}
	}
	return like * current
}
