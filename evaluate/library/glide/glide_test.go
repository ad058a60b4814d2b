package glide

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestGlideRange(t *testing.T) {
	// Example 6.7 of the same source: L/D 13.6 from 3048 m reaches 41 452.8 m.
	p := modelGlider(1)
	p.CD0 = 1 / (4 * 13.6 * 13.6 * p.Induced())
	got := kit.Must(Glide(GlideInput{Airframe: p, Height: 3048}))(t)
	kit.Near(t, "range of example 6.7, "+anderson, got.Range, 41452.8, kit.Digits(6))
	if !kit.Raised(got.List, "height-over-ceiling") {
		t.Error("3048 m raises no caution")
	}
}

// The rows work in small angles; at this glide ratio the exact path differs by
// up to half a percent: 1 − cos γ of the speed, and more where the wind takes
// part of it away.
func TestGlideInWindPublished(t *testing.T) {
	const source = "tangent from (−wind) to the speed polar, small angles, by numerical maximum"
	for _, row := range []struct{ wind, speed, ratio, still float64 }{
		{-3, 7.5882, 6.6397, 6.1762}, {2, 6.0146, 15.362, 15.248},
	} {
		p := modelGlider(1)
		got := kit.Must(Glide(GlideInput{Airframe: p, Height: 100, Wind: row.wind}))(t)
		kit.Near(t, "speed to fly, "+source, got.BestSpeed, row.speed, 0.006)
		kit.Near(t, "ratio over the ground, "+source, got.BestRange/100, row.ratio, 0.006)
		kit.Near(t, "ratio at still-air speed, "+source, got.GroundRatio, row.still, 0.006)

		// The rows themselves, by small angles on the same polar.
		ratio := func(cl float64) float64 {
			v := p.Reference() / math.Sqrt(cl)
			return (v + row.wind) / (v * p.Drag(cl) / cl)
		}
		cl := kit.GoldenSection(func(cl float64) float64 { return -ratio(cl) }, 0.05, 3)
		kit.Near(t, "speed, "+source, p.Reference()/math.Sqrt(cl), row.speed, kit.Digits(5))
		kit.Near(t, "ratio, "+source, ratio(cl), row.ratio, kit.Digits(5))
		kit.Near(t, "ratio at still-air speed, "+source, ratio(p.BestGlideCL()), row.still, kit.Digits(5))
	}
}

// The independent route: every CL up to the stall tried in small steps.
func TestWindCL(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		p := modelGlider(0.6 + r.Float64())
		p.CD0 = 0.015 + 0.1*r.Float64()
		wind := -9 + 18*r.Float64()
		over := func(cl float64) float64 {
			g := p.Trim(cl, 1)
			return (g.Speed*math.Cos(g.Angle) + wind) / g.Sink
		}
		best := math.Inf(-1)
		for cl := 0.001; cl <= p.CLMax; cl += 0.001 {
			best = math.Max(best, over(cl))
		}
		if got := over(p.windCL(wind)); got < best-1e-9*math.Abs(best) {
			t.Errorf("wind %.3g m/s: ratio %.9g, tried %.9g", wind, got, best)
		}
	}
}

func TestGlideLimits(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		p := modelGlider(1.2)
		p.CD0 = 0.015 + 0.08*r.Float64()
		h := 1 + 100*r.Float64()
		still := kit.Must(Glide(GlideInput{Airframe: p, Height: h}))(t)
		best := kit.Must(BestGlide(BestGlideInput{Airframe: p}))(t)
		kit.Near(t, "range = glide ratio × height", still.Range, best.GlideRatio*h, 1e-12)
		kit.Near(t, "best range in still air", still.BestRange, still.Range, 1e-12)
		kit.Near(t, "time × sink", still.Time*still.Sink, h, 1e-12)
		wind := -3 + 6*r.Float64()
		windy := kit.Must(Glide(GlideInput{Airframe: p, Height: h, Wind: wind}))(t)
		kit.Near(t, "the wind's share", windy.Range-still.Range, wind*still.Time, 1e-9)
		if windy.BestRange < windy.Range*(1-1e-12) {
			t.Errorf("the best range %g is short of %g", windy.BestRange, windy.Range)
		}
	}
}

func TestGlideStoppedPropeller(t *testing.T) {
	p := modelGlider(1.2)
	p.PropellerDrag = 0.0025
	folded := kit.Must(Glide(GlideInput{Airframe: p, Height: 50, Propeller: "folded"}))(t)
	stopped := kit.Must(Glide(GlideInput{Airframe: p, Height: 50, Propeller: "stopped"}))(t)
	if !(stopped.Range < folded.Range && stopped.Time < folded.Time) {
		t.Errorf("a stopped propeller costs nothing: %g m against %g m", stopped.Range, folded.Range)
	}
	p.CD0, p.PropellerDrag = p.CD0+p.PropellerDrag/p.Area, 0
	same := kit.Must(Glide(GlideInput{Airframe: p, Height: 50}))(t)
	kit.Near(t, "drag area put into CD0", same.Range, stopped.Range, 1e-14)
	_, err := Glide(GlideInput{Airframe: p, Height: 50, Propeller: "feathered"})
	kit.Refuses(t, err, "propeller")
}

func TestGlideCautionsAndErrors(t *testing.T) {
	p := modelGlider(1.2)
	back := kit.Must(Glide(GlideInput{Airframe: p, Height: 50, Wind: -8}))(t)
	if !kit.Raised(back.List, "blown-back") || !kit.Raised(back.List, "flying") {
		t.Errorf("cautions %v", back.List)
	}
	if calm := kit.Must(Glide(GlideInput{Airframe: p, Height: 50}))(t); kit.Raised(calm.List, "blown-back") {
		t.Error("blown back by no wind")
	}
	_, err := Glide(GlideInput{Airframe: p, Height: 0})
	kit.Refuses(t, err, "height")
	_, err = Glide(GlideInput{Airframe: p, Height: 10, CL: new(1.3)})
	kit.Refuses(t, err, "CL")
	_, err = Glide(GlideInput{Airframe: p, Height: 10, CL: new(-0.3)})
	kit.Refuses(t, err, "CL")
}

// The row, at the least-sink CL in a bank of 45° and for small angles; exact
// paths have √cos γ, cos^1.5 γ and cos² γ of its speed, sink and radius.
func TestTurningModelGlider(t *testing.T) {
	p := modelGlider(2)
	got := kit.Must(Turning(TurningInput{Airframe: p, Bank: math.Pi / 4, CL: new(1.408794)}))(t)
	cos := 1 / math.Hypot(1, math.Sqrt2*p.Drag(1.408794)/1.408794)
	kit.Near(t, "load factor, "+anderson, got.LoadFactor, 1.414214, kit.Digits(7))
	kit.Near(t, "speed, "+anderson, got.Speed/math.Sqrt(cos), 5.78656, kit.Digits(6))
	kit.Near(t, "sink, "+anderson, got.Sink/math.Pow(cos, 1.5), 0.813235, kit.Digits(6))
	kit.Near(t, "radius, "+anderson, got.Radius/(cos*cos), 3.41444, kit.Digits(6))
	rate := 360 / got.TurnTime
	kit.Near(t, "turn rate, "+anderson, rate*math.Sqrt(cos), 97.1008, kit.Digits(6))
	path := math.Atan(got.LoadFactor * p.Drag(p.CLMax) / p.CLMax) // at the stall, in this turn
	kit.Near(t, "stall × √n, "+anderson, got.StallSpeed/p.StallSpeed()/math.Sqrt(math.Cos(path)), 1.18921, kit.Digits(6))
	slowest := kit.Must(Turning(TurningInput{Airframe: p, Bank: 45 * math.Pi / 180, CL: &p.CLMax}))(t)
	kit.Near(t, "flown at the stall", slowest.Speed, slowest.StallSpeed, 1e-15)
	if !kit.Raised(got.List, "flying") {
		t.Error("no standing caution")
	}
}

func TestTurningLimits(t *testing.T) {
	p := modelGlider(1.2)
	level := kit.Must(BestGlide(BestGlideInput{Airframe: p}))(t)
	flat := kit.Must(Turning(TurningInput{Airframe: p, Bank: 1e-6}))(t)
	kit.Near(t, "speed without bank", flat.Speed, level.Speed, 1e-9)
	kit.Near(t, "sink without bank", flat.Sink, level.Sink, 1e-9)
	for _, bank := range []float64{-0.1, 0, math.Pi / 2, math.NaN()} {
		_, err := Turning(TurningInput{Airframe: p, Bank: bank})
		kit.Refuses(t, err, "bank")
	}
	// Lift's sideways part bends the path: the forces in the exact turn.
	for bank := 0.1; bank < 1.3; bank += 0.2 {
		got := kit.Must(Turning(TurningInput{Airframe: p, Bank: bank}))(t)
		lift := 0.5 * p.Density * got.Speed * got.Speed * p.Area * p.BestGlideCL()
		across := math.Sqrt(got.Speed*got.Speed - got.Sink*got.Sink)
		kit.Near(t, "centripetal force", lift*math.Sin(bank), p.Mass*across*across/got.Radius, 1e-12)
		drag := 0.5 * p.Density * got.Speed * got.Speed * p.Area * p.Drag(p.BestGlideCL())
		kit.Near(t, "vertical force", lift*math.Cos(bank)*across/got.Speed+drag*got.Sink/got.Speed, p.Weight(), 1e-12)
	}
}

// Example 6.20: at one speed, load factors 9 and 25 turn on radii in the ratio
// 2.79285 (and rates in 0.358057), since tan φ = √(n² − 1).
func TestTurnRatiosPublished(t *testing.T) {
	turn := func(n float64) TurningResult {
		p := modelGlider(60)
		p.CD0 = 1e-9 // flat paths
		p.Oswald = 1e9
		return kit.Must(Turning(TurningInput{Airframe: p, Bank: math.Acos(1 / n), CL: new(n)}))(t)
	}
	a, b := turn(9), turn(25)
	kit.Near(t, "one speed", a.Speed, b.Speed, 1e-6)
	kit.Near(t, "radii, "+anderson, a.Radius/b.Radius, 2.79285, kit.Digits(6))
	kit.Near(t, "rates, "+anderson, b.TurnTime/a.TurnTime, 0.358057, kit.Digits(6))
}

func BenchmarkGlide(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Glide(GlideInput{Airframe: glider(), Height: 50, Wind: -2}); err != nil {
			b.Fatal(err)
		}
	}
}
