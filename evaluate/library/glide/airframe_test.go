package glide

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

const anderson = "J. D. anderson, Introduction to Flight, chapter 6"

// The rows are for small angles (lift = weight); the library balances along
// the path, so V is √cos γ and the sink cos^1.5 γ of the rows'.
func TestAirframeModelGlider(t *testing.T) {
	got := kit.Must(Airframe(AirframeInput{modelGlider(1)}))(t)
	kit.Near(t, "aspect ratio, "+anderson, got.AspectRatio, 7.520833, kit.Digits(7))
	kit.Near(t, "k, "+anderson, got.Induced, 0.05290469, kit.Digits(7))
	kit.Near(t, "glide ratio, "+anderson, got.GlideRatio, 11.61954, kit.Digits(7))
	kit.Near(t, "stall, "+anderson, got.StallSpeed, 5.77546, kit.Digits(6))
	kit.Near(t, "wing loading", got.WingLoading, 0.250/0.12, 1e-14)

	best := kit.Must(BestGlide(BestGlideInput{Airframe: modelGlider(1)}))(t)
	kit.Near(t, "CL of best glide, "+anderson, best.CL, 0.8133677, kit.Digits(7))
	kit.Near(t, "angle, "+anderson, best.Angle*180/math.Pi, 4.91887, kit.Digits(6))
	cos := math.Cos(best.Angle)
	kit.Near(t, "speed, "+anderson, best.Speed/math.Sqrt(cos), 6.40388, kit.Digits(6))
	kit.Near(t, "sink, "+anderson, best.Sink/math.Pow(cos, 1.5), 0.55113, kit.Digits(6))
	drag := 0.5 * 1.225 * 6.40388 * 6.40388 * 0.12 * best.CD
	kit.Near(t, "level drag, "+anderson, drag, 0.210995, kit.Digits(6))
}

func TestSmallAngleLeastSink(t *testing.T) {
	p := modelGlider(3)
	small := p.Trim(math.Sqrt(3*p.CD0/p.Induced()), 1)
	cos := math.Cos(small.Angle)
	kit.Near(t, "CL of least sink, "+anderson, small.CL, 1.408794, kit.Digits(7))
	kit.Near(t, "speed, "+anderson, small.Speed/math.Sqrt(cos), 4.8659, kit.Digits(5))
	kit.Near(t, "sink, "+anderson, small.Sink/math.Pow(cos, 1.5), 0.483552, kit.Digits(6))
	kit.Near(t, "power, "+anderson, small.Sink/math.Pow(cos, 1.5)*p.Weight(), 1.18551, kit.Digits(6))
	exact := kit.Must(LeastSink(LeastSinkInput{Airframe: p}))(t)
	kit.Near(t, "exact least sink against small angle", exact.Sink, 0.483552, 0.02)
}

func TestAirframePublished(t *testing.T) {
	p := Plane{Mass: 13127.5 / gravity, Span: 10.912, Area: 16.165, CD0: 0.025, Oswald: 0.8, CLMax: 1.5, Density: 1.225}
	got := kit.Must(Airframe(AirframeInput{p}))(t)
	kit.Near(t, "aspect ratio of CP-1, "+anderson, got.AspectRatio, 7.366, kit.Digits(4))
	kit.Near(t, "largest CL/CD of CP-1, "+anderson+" (13.6 printed)", got.GlideRatio, 13.606, kit.Digits(4))
	kit.Near(t, "CL there, closed form", p.BestGlideCL(), 0.6803, kit.Digits(3))
	kit.Near(t, "L/D at the printed CL 0.634, "+anderson, p.Trim(0.634, 1).GlideRatio, 13.572, kit.Digits(4))
	power := func(cl float64) float64 { return -math.Pow(cl, 1.5) / p.Drag(cl) }
	kit.Near(t, "largest CL^1.5/CD of CP-1, "+anderson, -power(kit.GoldenSection(power, 0.1, 3)), 12.791, kit.Digits(4))

	// Example 6.7: L/D 13.6 from 3048 m: 4.2°, 41 452.8 m.
	kit.Near(t, "example 6.7 angle, "+anderson, math.Atan2(1, 13.6)*180/math.Pi, 4.2054, kit.Digits(4))
}

// Example 6.9: W/S of CP-1, CL 0.634, 4.2°: 53.133 and 47.033 m/s.
func TestGlideSpeedPublished(t *testing.T) {
	for _, row := range []struct{ density, speed float64 }{{0.905, 53.133}, {1.155, 47.033}} {
		p := Plane{Mass: 13127.5 / gravity, Span: 10.912, Area: 16.165, Oswald: 0.8, CLMax: 1.5, Density: row.density}
		p.CD0 = 0.634*math.Tan(4.2*math.Pi/180) - p.Induced()*0.634*0.634 // so that the path slopes 4.2°
		kit.Near(t, "example 6.9 speed, "+anderson, p.Trim(0.634, 1).Speed, row.speed, kit.Digits(5))
	}
}

// W 2400 lbf, S 174 ft², AR 7.38, CD0 0.037, e 0.72 at 4000 ft: 128.67 ft/s, 5.379°.
func TestBestGlidePublished(t *testing.T) {
	const source = "light-aircraft performance text, example 9.1: V = √(2W/ρS)·[1/(4·CD0² + CD0·π·e·AR·cos²φ)]^¼"
	area := 174 * 0.3048 * 0.3048
	here := kit.Must(Air(AirInput{Altitude: 4000 * 0.3048}))(t)
	p := Plane{Mass: 2400 * 0.45359237, Span: math.Sqrt(7.38 * area), Area: area, CD0: 0.037, Oswald: 0.72, CLMax: 2, Density: here.Density}
	got := kit.Must(BestGlide(BestGlideInput{Airframe: p}))(t)
	kit.Near(t, "speed, "+source, got.Speed/0.3048, 128.67, kit.Digits(5))
	kit.Near(t, "angle, "+source, got.Angle*180/math.Pi, 5.379, kit.Digits(4))
}

// CD = 0.025 + 0.0415·CL²: largest CL/CD 15.523, largest CL³/CD² 242.952.
func TestPowerFactorPublished(t *testing.T) {
	const source = "university coursework on the power factor, printed 15.52 and 242.95"
	p := Plane{Mass: 1, Span: math.Sqrt(10), Area: 1, CD0: 0.025, Oswald: 1 / (math.Pi * 0.0415 * 10), CLMax: 5, Density: 1.225}
	kit.Near(t, "glide ratio, "+source, p.Trim(p.BestGlideCL(), 1).GlideRatio, 15.523, kit.Digits(5))
	cl := math.Sqrt(3 * p.CD0 / p.Induced())
	kit.Near(t, "CL³/CD², "+source, cl*cl*cl/(p.Drag(cl)*p.Drag(cl)), 242.952, kit.Digits(6))
}

// The independent route to the trim: the forces' sum along and across the
// path, and a minimiser for the best glide and the least sink.
func TestTrimByForcesAndMinimiser(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		p := Plane{Mass: 0.02 + 2*r.Float64(), Span: 0.4 + 2*r.Float64(), Area: 0.05 + 0.4*r.Float64(),
			CD0: 0.015 + 0.08*r.Float64(), Oswald: 0.6 + 0.4*r.Float64(), CLMax: 6, Density: 0.9 + 0.4*r.Float64()}
		for _, cl := range []float64{0.2, 0.7, 1.3} {
			g := p.Trim(cl, 1)
			q := 0.5 * p.Density * g.Speed * g.Speed * p.Area
			kit.Near(t, "lift", q*g.CL, p.Weight()*math.Cos(g.Angle), 1e-12)
			kit.Near(t, "drag", q*g.CD, p.Weight()*math.Sin(g.Angle), 1e-12)
			kit.Near(t, "sink", g.Sink, g.Speed*math.Sin(g.Angle), 1e-12)
		}
		flat := kit.GoldenSection(func(cl float64) float64 { return p.Trim(cl, 1).Angle }, 0.01, 6)
		kit.Near(t, "best glide by minimiser", p.Trim(p.BestGlideCL(), 1).Angle, p.Trim(flat, 1).Angle, 1e-12)
		kit.Near(t, "its CL", p.BestGlideCL(), flat, 1e-5)
		if root := 1 - 32*p.Induced()*p.CD0; root < 0.2 {
			continue // no least sink well inside the range
		}
		slow := kit.GoldenSection(func(cl float64) float64 { return p.Trim(cl, 1).Sink }, 0.01, math.Min(6, 2*p.leastSinkCL()))
		if p.leastSinkCL() < 3 {
			kit.Near(t, "least sink by minimiser", p.Trim(p.leastSinkCL(), 1).Sink, p.Trim(slow, 1).Sink, 1e-9)
		}
	}
}

func TestStallBound(t *testing.T) {
	p := modelGlider(1)
	got := kit.Must(Airframe(AirframeInput{p}))(t)
	if slow := kit.Must(LeastSink(LeastSinkInput{Airframe: p}))(t); !kit.Raised(slow.List, "flies-on-the-stall") {
		t.Error("least sink past the stall raises no caution")
	}
	kit.Near(t, "least sink is at the stall", got.LeastSink, p.Trim(1, 1).Sink, 1e-14)
	if free := kit.Must(LeastSink(LeastSinkInput{Airframe: modelGlider(2)}))(t); kit.Raised(free.List, "flies-on-the-stall") {
		t.Error("a caution although the stall is far off")
	}
	p.CD0 = 2 // a parachute has no least sink below the stall
	kit.Near(t, "least sink of a brick", p.leastSinkCL(), p.CLMax, 0)
}

func TestAirframeRefuses(t *testing.T) {
	for field, spoil := range map[string]func(*Plane){
		"mass": func(p *Plane) { p.Mass = -1 }, "span": func(p *Plane) { p.Span = 0 },
		"area": func(p *Plane) { p.Area = math.NaN() }, "CD0": func(p *Plane) { p.CD0 = 0 },
		"oswald": func(p *Plane) { p.Oswald = 0 }, "CL_max": func(p *Plane) { p.CLMax = 0 },
		"propeller_drag": func(p *Plane) { p.PropellerDrag = -1 }, "density": func(p *Plane) { p.Density = math.Inf(1) },
	} {
		p := modelGlider(1)
		spoil(&p)
		_, err := Airframe(AirframeInput{p})
		kit.Refuses(t, err, field)
		_, err = Glide(GlideInput{Airframe: p, Height: 10})
		kit.Refuses(t, err, "airframe."+field)
		_, err = BestGlide(BestGlideInput{Airframe: p})
		kit.Refuses(t, err, "airframe."+field)
		_, err = Turning(TurningInput{Airframe: p, Bank: 0.5})
		kit.Refuses(t, err, "airframe."+field)
	}
}

// 2 blades, solidity 0.10, D 0.20 m: 0.00251327 m²; 0.0985203 N at 8 m/s.
func TestPropellerDrag(t *testing.T) {
	const source = "D. P. Raymer, Aircraft Design: 0.8·σ·A stopped (from memory)"
	got := kit.Must(PropellerDrag(PropellerDragInput{Diameter: 0.20, Solidity: 0.10}))(t)
	kit.Near(t, "D/q, "+source, got.DragArea, 0.00251327, kit.Digits(6))
	kit.Near(t, "drag, "+source, got.DragArea*0.5*1.225*64, 0.0985203, kit.Digits(6))
	_, err := PropellerDrag(PropellerDragInput{Diameter: -1, Solidity: 0.1})
	kit.Refuses(t, err, "diameter")
}
