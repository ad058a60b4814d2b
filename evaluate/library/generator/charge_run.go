package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/model"
)

// Where each integral over the voltage stands in a vector of them.
const (
	iTime = iota
	iTurn // of the crank, in rad
	iWork
	iCopper
	iLeads
	iStore
	iDiodes
	iGears
	iDrag
	iEddy
	iLeak
	iCount
)

type integrals [iCount]float64

// rate is what grows with the voltage, each by the volt.
func (in *HandChargeInput) rate(v float64, p pull) integrals {
	dt := in.Store.Capacitance / p.net
	lead, own := in.Generator.LeadResistance, in.Store.Resistance
	share := 0.0
	if lead+own > 0 {
		share = own / (lead + own)
	}
	return integrals{dt, p.cadence * dt, p.crankPower() * dt, p.copper * dt, p.direct * (1 - share) * dt, p.direct * share * dt,
		p.diodes * dt, (p.power + p.eddy) * (1/in.GearEfficiency - 1) * dt, in.Drag * p.cadence * dt, p.eddy * dt, v * in.leak(v) * dt}
}

// run is the charge itself.
func (in *HandChargeInput) run(ctx context.Context) (HandChargeResult, error) {
	out := HandChargeResult{History: make([]ChargeRow, 0, chargeParts+1)}
	sum, err := in.between(ctx, in.From, in.To, chargeParts, func(v, t float64, p pull) {
		out.History = append(out.History, ChargeRow{Time: t, Voltage: v, Current: p.mean, Power: p.crankPower(), Torque: p.torque, Cadence: p.cadence})
		out.PeakTorque, out.PeakPower = max(out.PeakTorque, p.torque), max(out.PeakPower, p.crankPower())
		out.PeakCurrent = max(out.PeakCurrent, p.mean)
	})
	if err != nil {
		return HandChargeResult{}, err
	}
	c := in.Store.Capacitance
	out.Time, out.Turns = sum[iTime], sum[iTurn]/(2*math.Pi)
	out.ChargeSum = ChargeSum{Work: sum[iWork], Stored: c * (in.To + in.From) * (in.To - in.From) / 2, Copper: sum[iCopper], Leads: sum[iLeads],
		StoreR: sum[iStore], Diodes: sum[iDiodes], Gears: sum[iGears], Drag: sum[iDrag], Eddy: sum[iEddy], Leakage: sum[iLeak]}
	out.Efficiency = out.Stored / out.Work
	out.Ceiling = in.Generator.ceiling(in.Cadence * in.Gearing)
	if g := in.Generator; g.CoilResistance > 0 && g.Coils > 0 {
		out.WireCurrent = math.Sqrt(sum[iCopper] / (out.Time * float64(g.Coils) * g.CoilResistance))
	}
	return out, nil
}

// ceiling is the rested voltage at which a rotation charges no further.
func (m *Machine) ceiling(rotation float64) float64 {
	return max(0, m.CeilingConstant*rotation-2*m.leastDrop())
}

func (in *HandChargeInput) caution(ctx context.Context, out *HandChargeResult) (err error) {
	in.weakest(&out.Cautions)
	seconds := math.Inf(1)
	if in.overcharges() {
		if seconds, err = in.secondsToRating(ctx); err != nil {
			return err
		}
	}
	in.overcharge(&out.Cautions, seconds)
	if in.Generator.WireSection > 0 {
		densityCaution(&out.Cautions, out.WireCurrent/in.Generator.WireSection)
	}
	reactanceCaution(&out.Cautions, in.Generator, in.Cadence*in.Gearing, in.Store.Resistance)
	eddyCaution(&out.Cautions, out.Eddy, out.Work)
	armCaution(&out.Cautions, out.Work/out.Time)
	touchVoltage(&out.Cautions, in.Generator.CeilingConstant*in.Cadence*in.Gearing)
	spinningRotor(&out.Cautions)
	handCranking(&out.Cautions)
	return nil
}

// reactanceCaution says when the inductance that the bridge's formula leaves
// out is not small.
func reactanceCaution(c *model.Cautions, m Machine, rotation, store float64) {
	loop := m.PhaseResistance
	if !m.star() {
		loop += m.LeadResistance + store
	}
	ratio := float64(m.Poles) / 2 * rotation * m.PhaseInductance / loop
	if ratio <= 0.1 {
		return
	}
	x := model.Caution{ID: "winding-reactance", Level: model.Advice,
		Summary: "The winding's reactance is {0} of its resistance, so the current reads up to {1} high.",
		Values:  []model.Value{model.In(100*ratio, "%"), model.In(100*readsHigh(ratio), "%")},
		Why:     "The bridge is worked without inductance.",
		Hint:    "Measure the charging current, or use fewer turns at a higher speed.",
		Source:  "time-domain runs of a single-phase bridge with inductance, up to four fifths of its ceiling"}
	if ratio > 0.3 {
		x.Level = model.Warning
		x.Summary = "The winding's reactance is {0} of its resistance, so the current reads {1} high or more."
		x.Values[1].Number = 15
	}
	c.Raise(x)
}

// readsHigh is how much of the current the formula without inductance has too
// much, at most, up to four fifths of the ceiling and a ratio of 0.3.
func readsHigh(ratio float64) float64 { return 1.6 * ratio * ratio }

// eddyShare is the share of the work above which eddy currents are worth a word.
const eddyShare = 0.03

func eddyCaution(c *model.Cautions, loss, work float64) {
	if loss <= eddyShare*work {
		return
	}
	c.Raise(model.Caution{ID: "winding-eddy-loss", Level: model.Advice,
		Summary: "Eddy currents in the wire itself take {0}, {1} of the work at the crank.",
		Values:  []model.Value{model.In(loss, "J"), model.In(100*loss/work, "%")},
		Why:     "Thick wire that lies bare in a changing field is heated across its section.",
		Hint:    "Wind with several thinner wires side by side, or turn slower with more turns.",
		Source:  "C. R. Sullivan, IEEE Trans. Power Electron. 16 (2001) 142, from memory: π·d⁴/(64·ρ)·(dB/dt)² for each length of round wire"})
}
