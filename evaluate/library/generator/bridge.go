package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// A flow is what a bridge passes, averaged over a turn of the emf.
type flow struct {
	mean   float64 // A, on the d.c. side
	power  float64 // W, from the emfs
	square float64 // A², mean square on the d.c. side
	peak   float64 // A, on the d.c. side
	shared float64 // of several bridges, the part of the mean that flows while more than one conducts
}

// singleFlow is a full bridge on one emf of peak e through r into a stiff x.
func singleFlow(e, r, x float64) flow {
	if x >= e {
		return flow{}
	}
	x = max(0, x)
	sin := x / e
	c1 := math.Sqrt((1 - sin) * (1 + sin)) // ∫sin and ∫sin², from where x is passed to the crest
	half := math.Atan2(c1, sin)
	c2 := (half + sin*c1) / 2
	k := 2 / math.Pi
	return flow{
		mean:   k / r * (e*c1 - x*half),
		power:  k / r * (e*e*c2 - e*x*c1),
		square: k / (r * r) * (e*e*c2 - 2*e*x*c1 + x*x*half),
		peak:   (e - x) / r,
	}
}

// threeFlow is a full bridge on a star of peak e and r a phase, through rd on
// the d.c. side into a stiff x.
//
// Over a twelfth of a turn, ψ from the crest of the lone phase: up to psi three
// diodes conduct, from there two, over an angle u as long as the line voltage is
// above x. With s = sin and c = cos of an interval's ends, all integrals are of
// 1, cos, cos².
func threeFlow(e, r, rd, x float64) flow {
	line := math.Sqrt(3) * e
	if x >= line {
		return flow{}
	}
	x = max(0, x)
	s3, c3 := threeDiodes(e, r, rd, x)
	var psi, u, su, cu float64
	if s3 > 0 { // two conduct to the end of the twelfth
		psi = math.Asin(s3)
		u, su, cu = math.Pi/6-psi, (c3-math.Sqrt(3)*s3)/2, (math.Sqrt(3)*c3+s3)/2
	} else {
		cu = x / line
		su = math.Sqrt((1 - cu) * (1 + cu))
		u = math.Asin(su)
	}
	r2, r3 := 2*r+rd, r+2*rd/3
	y, q3, qu := 2*x/3, (psi+s3*c3)/2, (u+su*cu)/2
	k := 6 / math.Pi

	sum3, sq3 := (e*s3-y*psi)/r3, (e*e*q3-2*e*y*s3+y*y*psi)/(r3*r3)
	sum2, sq2 := (line*su-x*u)/r2, (line*line*qu-2*line*x*su+x*x*u)/(r2*r2)
	// P of three: (3/2·e² − e·cos ψ·(x + i·rd))/r.
	power3 := (1.5*e*e*psi - x*e*s3 - rd*(e*e*q3-e*y*s3)/r3) / r
	power2 := (line*line*qu - line*x*su) / r2
	return flow{mean: k * (sum3 + sum2), power: k * (power3 + power2), square: k * (sq3 + sq2),
		peak: max((line-x)/r2, (e-y)/r3)}
}

// threeDiodes is sine and cosine of the angle up to which three diodes share,
// acos(2k·x/(3e·√(k² + 3))) − atan(√3/k) with k = r/(r + 2rd/3).
func threeDiodes(e, r, rd, x float64) (sin, cos float64) {
	if x >= 1.5*e {
		return 0, 1 // the crest of the lone phase alone never lifts the other two
	}
	k := r / (r + 2*rd/3)
	h := math.Sqrt(k*k + 3)
	a := 2 * k * x / (3 * e * h)
	b := math.Sqrt((1 - a) * (1 + a))
	if sin = (b*k - a*math.Sqrt(3)) / h; sin <= 0 {
		return 0, 1
	}
	return sin, (a*k + b*math.Sqrt(3)) / h
}

// BridgeSinglePhaseInput is what [BridgeSinglePhase] reads.
type BridgeSinglePhaseInput struct {
	Emf        float64 `unit:"V" range:"(0,)" help:"peak of the source, open"`
	Resistance float64 `unit:"Ω" range:"(0,)" help:"coils, leads, fuse and store in series" symbol:"R"`
	Voltage    float64 `unit:"V" range:"[0,)" help:"of the store, rested" symbol:"V"`
	DiodeDrop  float64 `unit:"V" default:"0.7 V" range:"[0,)" help:"of one diode; two conduct"`
	Reactance  float64 `unit:"Ω" default:"0 Ω" range:"[0,)" help:"of the coils at this speed, 2π·f·L"`
}

// BridgeResult is what a bridge passes into a voltage that stands still.
type BridgeResult struct {
	Current        float64 `unit:"A" show:"1" help:"mean, into the store" symbol:"I"`
	Power          float64 `unit:"W" show:"2" help:"into the store" symbol:"P"`
	SourcePower    float64 `unit:"W" help:"from the emf, which the shaft supplies"`
	Pulse          float64 `unit:"1" help:"largest power of the emf within a turn, by its mean: so the torque pulses"`
	CurrentRms     float64 `unit:"A" help:"on the d.c. side"`
	PeakCurrent    float64 `unit:"A"`
	ResistanceLoss float64 `unit:"W"`
	DiodeLoss      float64 `unit:"W"`
	Conduction     float64 `unit:"deg" help:"of each half turn of the emf (single phase) or sixth (three phase)"`
	Ceiling        float64 `unit:"V" show:"3" help:"where the current ends"`
	model.Cautions
}

// BridgeSinglePhase is a full bridge from a sinusoidal source with resistance
// into a store, whose voltage stands still over a turn of the emf.
//
// Formula: X = V + 2·Vd, θ = asin(X/E); I = 2/(π·R)·(E·cos θ − X·(π/2 − θ)); from the emf P_e = 2/(π·R)·(E²·((π/2 − θ)/2 + sin(2·θ)/4) − E·X·cos θ), which does not hold with a reactance: then i is a sine and an exponential between the angles at which diodes change, the integrals in closed form; P = V·I; P_d = 2·Vd·I, P_e = P + P_d + P_R; V_max = E − 2·Vd, above which none flows; conduction β = π − 2·θ
//
// Letters: E emf; R resistance; V voltage; Vd diode_drop; I = current; P_e = source_power; P = power; P_d = diode_loss; P_R = resistance_loss; V_max = ceiling; β = conduction.
//
// Validity: a diode drop that does not depend on the current; P − X·I is the loss
// in the resistance.
//
// Source: power-electronics textbooks, battery charger (M. H. Rashid, Power
// Electronics, chapter on diodes); with inductance: Kirchhoff's laws
//
// Example:
//
//	b = bridge_single_phase(10 V, 0.5 Ω, 5 V, diode_drop: 0.7 V)
//	I [A] = b.current
func BridgeSinglePhase(in BridgeSinglePhaseInput) (BridgeResult, error) {
	err := require.All(checkBridge(in.Emf, in.Resistance, in.Voltage, in.DiodeDrop), require.NotNegative("reactance", in.Reactance, "Ω"))
	if err != nil {
		return BridgeResult{}, err
	}
	x := in.Voltage + 2*in.DiodeDrop
	f := laggingSingle(in.Emf, in.Resistance, in.Reactance, x)
	out := bridgeResult(f, singleBeat(in.Emf, in.Resistance, in.Reactance, x), in.Emf, in.Resistance, in.Voltage, in.DiodeDrop)
	out.Ceiling = max(0, in.Emf-2*in.DiodeDrop)
	switch {
	case x >= in.Emf:
	case in.Reactance <= leastLag*in.Resistance:
		out.Conduction = math.Pi - 2*math.Asin(x/in.Emf)
	default:
		out.Conduction = lag{q: in.Reactance / in.Resistance}.single(x / in.Emf).length()
	}
	ceilingCaution(&out.Cautions, in.Voltage, out.Ceiling)
	touchVoltage(&out.Cautions, in.Emf)
	return out, nil
}

// BridgeThreePhaseInput is what [BridgeThreePhase] reads.
type BridgeThreePhaseInput struct {
	Emf          float64 `unit:"V" range:"(0,)" help:"peak of one phase of the star, open"`
	Resistance   float64 `unit:"Ω" range:"(0,)" help:"of one phase" symbol:"R"`
	Voltage      float64 `unit:"V" range:"[0,)" help:"of the store, rested" symbol:"V"`
	DcResistance float64 `unit:"Ω" default:"0 Ω" range:"[0,)" help:"leads, fuse and store, behind the bridge"`
	DiodeDrop    float64 `unit:"V" default:"0.7 V" range:"[0,)" help:"of one diode; two conduct"`
	Reactance    float64 `unit:"Ω" default:"0 Ω" range:"[0,)" help:"of one phase at this speed, 2π·f·L"`
}

// BridgeThreePhase is a full bridge from a star of three sinusoidal sources
// into a store, whose voltage stands still over a turn of the emf.
//
// Formula: X = V + 2·Vd, VL = √3·E; three diodes conduct where i = (|e| − 2·X/3)/(R + 2·Rd/3), two where i = (e_line − X)/(2·R + Rd); mean and power are the integrals of these over a twelfth of a turn; P = V·I; P_d = 2·Vd·I, from the emf P_e = P + P_d + P_R; V_max = VL − 2·Vd, above which none flows. With a reactance i is sines and exponentials between the angles at which diodes change, which repeat after a sixth of a turn
//
// Letters: E emf; V voltage; Vd diode_drop; I = current; P_e = source_power; P = power; P_d = diode_loss; P_R = resistance_loss; V_max = ceiling.
//
// Validity: a diode drop that does not depend on the current. A delta is a star of
// E/√3, R/3 and a third of the reactance.
//
// Source: Kirchhoff's laws; ideal output 3√3/π of the phase peak, textbook; the order
// of conduction: V. Caliskan et al., IEEE Trans. Circuits Syst. I 50 (2003) 1220, from memory
//
// Example:
//
//	b = bridge_three_phase(10 V, 0.5 Ω, 8 V)
//	I [A] = b.current
func BridgeThreePhase(in BridgeThreePhaseInput) (BridgeResult, error) {
	err := checkBridge(in.Emf, in.Resistance, in.Voltage, in.DiodeDrop)
	if err == nil {
		err = require.All(require.NotNegative("dc_resistance", in.DcResistance, "Ω"), require.NotNegative("reactance", in.Reactance, "Ω"))
	}
	if err != nil {
		return BridgeResult{}, err
	}
	x, line := in.Voltage+2*in.DiodeDrop, math.Sqrt(3)*in.Emf
	f := laggingThree(in.Emf, in.Resistance, in.DcResistance, in.Reactance, x, new(track))
	out := bridgeResult(f, threeBeat(in.Emf, in.Resistance, in.DcResistance, in.Reactance, x, new(track)), in.Emf, in.Resistance, in.Voltage, in.DiodeDrop)
	out.Ceiling = max(0, line-2*in.DiodeDrop)
	switch {
	case x >= line:
	case in.Reactance <= leastLag*in.Resistance:
		out.Conduction = min(math.Pi/3, 2*math.Acos(x/line))
	default:
		t := lag{q: in.Reactance / in.Resistance, rd: in.DcResistance / in.Resistance}.three(x/in.Emf, new(track))
		out.Conduction = min(math.Pi/3, t.early.length()+t.lone.length()+t.late.length())
	}
	ceilingCaution(&out.Cautions, in.Voltage, out.Ceiling)
	touchVoltage(&out.Cautions, line)
	return out, nil
}

func checkBridge(emf, resistance, voltage, drop float64) error {
	if err := require.All(require.Positive("emf", emf, "V"), require.Positive("resistance", resistance, "Ω")); err != nil {
		return err
	}
	return require.All(require.NotNegative("voltage", voltage, "V"), require.NotNegative("diode_drop", drop, "V"))
}

func bridgeResult(f flow, b beaten, emf, resistance, voltage, drop float64) BridgeResult {
	pulse := 0.0
	if f.power > 0 {
		pulse = b.peakPower() * emf * emf / resistance / f.power
	}
	return BridgeResult{Pulse: pulse,
		Current: f.mean, Power: voltage * f.mean, SourcePower: f.power, CurrentRms: math.Sqrt(max(0, f.square)),
		PeakCurrent: b.peakCurrent() * emf / resistance, DiodeLoss: 2 * drop * f.mean,
		ResistanceLoss: max(0, f.power-(voltage+2*drop)*f.mean),
	}
}

// ceilingCaution says when nothing flows, which is an answer but seldom the
// one that is wanted.
func ceilingCaution(c *model.Cautions, voltage, ceiling float64) {
	if voltage < ceiling {
		return
	}
	c.Raise(model.Caution{ID: "above-charging-ceiling", Level: model.Warning,
		Summary: "Nothing flows: the store is at {0}, the source charges to {1}.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(ceiling, "V")},
		Hint:    "Turn faster, or add turns or coils in series.",
		Source:  "the bridge conducts only while the emf is above the store's voltage and two diode drops"})
}
