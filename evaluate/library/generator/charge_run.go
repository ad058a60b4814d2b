package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/model"
)

// run is the charge itself.
func (in *HandChargeInput) run(ctx context.Context) (HandChargeResult, error) {
	c, err := in.follow(ctx, in.From, in.To, in.start())
	if ctx.Err() != nil {
		return HandChargeResult{}, ctx.Err()
	}
	if err != nil {
		return HandChargeResult{}, in.stall(c.at)
	}
	out := HandChargeResult{Ceiling: in.Generator.ceiling(in.Cadence * in.Gearing), Reactance: in.reactance(),
		PeakTorque: c.torque, PeakPower: c.power}
	y := c.y
	out.Time, out.Turns = y[iTime], y[iTurn]/(2*math.Pi)
	out.ChargeSum = ChargeSum{Work: y[iWork], Stored: in.Store.law().Energy(in.From, in.To), Copper: y[iCopper],
		Leads: y[iLeads], StoreR: y[iStore], Diodes: y[iDiodes], Gears: y[iGears], Drag: y[iDrag], Eddy: y[iEddy], Leakage: y[iLeak]}
	in.settling(y, &out)
	out.Efficiency = out.Stored / out.Work
	if model.Asked(ctx, "history") {
		in.look(c, &out)
	}
	if g := in.Generator; g.CoilResistance > 0 && g.Coils > 0 {
		out.WireCurrent = math.Sqrt(y[iSquare] / (out.Time * float64(g.Coils) * g.CoilResistance))
	}
	if in.Generator.CopperMass > 0 {
		out.CoilTemperature = &y[iKelvin]
	}
	return out, nil
}

// look goes along a charge and notes what it sees.
func (in *HandChargeInput) look(c course, out *HandChargeResult) {
	out.History = in.history(c)
	out.PulseTorque = in.pulse(c, out.History)
	for _, r := range out.History {
		out.PeakCurrent = max(out.PeakCurrent, r.Current)
	}
}

// chargeParts is how many equal steps of voltage a history has.
const chargeParts = 20

// history is a charge at equal steps of the voltage.
func (in *HandChargeInput) history(c course) []ChargeRow {
	rows, row := make([]ChargeRow, 0, chargeParts+1), in.rows(c)
	for i := range chargeParts + 1 {
		rows = append(rows, row(in.From+(in.To-in.From)*float64(i)/chargeParts))
	}
	return rows
}

// rows gives the moment of a charge at a voltage.
func (in *HandChargeInput) rows(c course) func(v float64) ChargeRow {
	a, y := in.arm(in.start()), make([]float64, len(c.y))
	return func(v float64) ChargeRow {
		v = min(v, c.at)
		p := c.moment(a, v, y)
		return ChargeRow{Time: y[iTime], Voltage: v, Current: p.mean, Power: p.crankPower(), Torque: p.torque, Cadence: p.cadence,
			Temperature: y[iKelvin], PulseTorque: a.pulse(p)}
	}
}

// pulse is the largest torque within a turn of the emf over a charge: that of its rows,
// of where a limit of the mean ceases to hold, or of the crest of the parabola
// through the best row and those beside it.
func (in *HandChargeInput) pulse(c course, rows []ChargeRow) float64 {
	row := in.rows(c)
	best := 0
	for i, r := range rows {
		if r.PulseTorque > rows[best].PulseTorque {
			best = i
		}
	}
	top := rows[best].PulseTorque
	for _, v := range c.joints() {
		top = max(top, row(v).PulseTorque)
	}
	if best == 0 || best == len(rows)-1 {
		return top
	}
	before, after, wide := rows[best-1].PulseTorque, rows[best+1].PulseTorque, rows[best+1].Voltage-rows[best].Voltage
	crest := rows[best].Voltage + wide*(before-after)/(2*(before-2*rows[best].PulseTorque+after))
	if !(math.Abs(crest-rows[best].Voltage) < wide) {
		return top
	}
	return max(top, row(crest).PulseTorque)
}

// reactance is that of the coils at the wanted cadence, by the resistance in
// their path.
func (in *HandChargeInput) reactance() float64 {
	path := in.Generator.PhaseResistance
	if !in.Generator.star() {
		path += in.behind()
	}
	return in.Generator.reactance(in.Cadence*in.Gearing) / path
}

// ceiling is the rested voltage at which a rotation charges no further.
func (m *Machine) ceiling(rotation float64) float64 {
	return max(0, m.CeilingConstant*rotation-2*m.leastDrop())
}

func (in *HandChargeInput) caution(ctx context.Context, out *HandChargeResult) error {
	if model.IsQuiet(ctx) {
		return nil
	}
	c := &out.Cautions
	in.target(c)
	if out.CoilTemperature != nil {
		hotCoils(c, *out.CoilTemperature)
	}
	soon, err := in.soon(ctx, c)
	if !soon {
		in.overcharge(c)
	}
	if in.Generator.WireSection > 0 {
		densityCaution(c, out.WireCurrent/in.Generator.WireSection)
	}
	eddyCaution(c, out.Eddy, out.Work)
	armCaution(c, out.Work/out.Time, out.Time)
	crankTorque(c, out.PulseTorque)
	touchVoltage(c, in.Generator.CeilingConstant*in.Cadence*in.Gearing)
	spinningRotor(c)
	handCranking(c)
	return err
}

// eddyShare is the share of the work above which eddy currents are worth a word.
const eddyShare = 0.03

func eddyCaution(c *model.Cautions, loss, work float64) {
	if loss <= eddyShare*work {
		return
	}
	c.Raise(model.Caution{ID: "winding-eddy-loss", Level: model.Advice, Severity: loss / work,
		Summary: "Eddy currents take {0}, {1} of the work.",
		Values:  []model.Value{model.In(loss, "J"), model.In(100*loss/work, "%")},
		Why:     "Thick wire that lies bare in a changing field is heated across its section; thinner wires lie side by side, and more turns make up for speed.",
		Hint:    "Wind several thinner wires, or turn slower.",
		Source:  "C. R. Sullivan, IEEE Trans. Power Electron. 16 (2001) 142, from memory: π·d⁴/(64·ρ)·(dB/dt)² for each length of round wire"})
}
