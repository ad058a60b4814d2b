package glide

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestGlideRange(t *testing.T) {
	// Example 6.7 of the same source: L/D 13.6 from 3048 m reaches 41 452.8 m.
	p := modelGlider(1)
	p.CD0 = 1 / (4 * 13.6 * 13.6 * p.induced())
	got := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: 3048}))
	near(t, "range of example 6.7, "+anderson, got.Range, 41452.8, digits(6))
	if !raised(got.Cautions, "height-over-ceiling") {
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
		got := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: 100, Wind: row.wind}))
		near(t, "speed to fly, "+source, got.BestSpeed, row.speed, 0.006)
		near(t, "ratio over the ground, "+source, got.BestRange/100, row.ratio, 0.006)
		near(t, "ratio at still-air speed, "+source, got.GroundRatio, row.still, 0.006)

		// The rows themselves, by small angles on the same polar.
		ratio := func(cl float64) float64 {
			v := p.reference() / math.Sqrt(cl)
			return (v + row.wind) / (v * p.drag(cl) / cl)
		}
		cl := golden(func(cl float64) float64 { return -ratio(cl) }, 0.05, 3)
		near(t, "speed, "+source, p.reference()/math.Sqrt(cl), row.speed, digits(5))
		near(t, "ratio, "+source, ratio(cl), row.ratio, digits(5))
		near(t, "ratio at still-air speed, "+source, ratio(p.bestGlideCL()), row.still, digits(5))
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
			g := p.trim(cl, 1)
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
		still := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: h}))
		best := must[BestGlideResult](t)(BestGlide(BestGlideInput{Airframe: p}))
		near(t, "range = glide ratio × height", still.Range, best.GlideRatio*h, 1e-12)
		near(t, "best range in still air", still.BestRange, still.Range, 1e-12)
		near(t, "time × sink", still.Time*still.Sink, h, 1e-12)
		wind := -3 + 6*r.Float64()
		windy := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: h, Wind: wind}))
		near(t, "the wind's share", windy.Range-still.Range, wind*still.Time, 1e-9)
		if windy.BestRange < windy.Range*(1-1e-12) {
			t.Errorf("the best range %g is short of %g", windy.BestRange, windy.Range)
		}
	}
}

func TestGlideStoppedPropeller(t *testing.T) {
	p := modelGlider(1.2)
	p.PropellerDrag = 0.0025
	folded := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: 50, Propeller: "folded"}))
	stopped := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: 50, Propeller: "stopped"}))
	if !(stopped.Range < folded.Range && stopped.Time < folded.Time) {
		t.Errorf("a stopped propeller costs nothing: %g m against %g m", stopped.Range, folded.Range)
	}
	p.CD0, p.PropellerDrag = p.CD0+p.PropellerDrag/p.Area, 0
	same := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: 50}))
	near(t, "drag area put into CD0", same.Range, stopped.Range, 1e-14)
	_, err := Glide(GlideInput{Airframe: p, Height: 50, Propeller: "feathered"})
	wrongField(t, err, "propeller")
}

func TestGlideCautionsAndErrors(t *testing.T) {
	p := modelGlider(1.2)
	back := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: 50, Wind: -8}))
	if !raised(back.Cautions, "blown-back") || !raised(back.Cautions, "flying") {
		t.Errorf("cautions %v", back.List)
	}
	if calm := must[GlideResult](t)(Glide(GlideInput{Airframe: p, Height: 50})); raised(calm.Cautions, "blown-back") {
		t.Error("blown back by no wind")
	}
	_, err := Glide(GlideInput{Airframe: p, Height: 0})
	wrongField(t, err, "height")
	_, err = Glide(GlideInput{Airframe: p, Height: 10, CL: pointer(1.3)})
	wrongField(t, err, "CL")
	_, err = Glide(GlideInput{Airframe: p, Height: 10, CL: pointer(-0.3)})
	wrongField(t, err, "CL")
}

// The row, at the least-sink CL in a bank of 45° and for small angles; exact
// paths have √cos γ, cos^1.5 γ and cos² γ of its speed, sink and radius.
func TestTurningModelGlider(t *testing.T) {
	p := modelGlider(2)
	got := must[TurningResult](t)(Turning(TurningInput{Airframe: p, Bank: math.Pi / 4, CL: pointer(1.408794)}))
	cos := 1 / math.Hypot(1, math.Sqrt2*p.drag(1.408794)/1.408794)
	near(t, "load factor, "+anderson, got.LoadFactor, 1.414214, digits(7))
	near(t, "speed, "+anderson, got.Speed/math.Sqrt(cos), 5.78656, digits(6))
	near(t, "sink, "+anderson, got.Sink/math.Pow(cos, 1.5), 0.813235, digits(6))
	near(t, "radius, "+anderson, got.Radius/(cos*cos), 3.41444, digits(6))
	rate := 360 / got.TurnTime
	near(t, "turn rate, "+anderson, rate*math.Sqrt(cos), 97.1008, digits(6))
	near(t, "stall × √n, "+anderson, got.StallSpeed/p.stallSpeed(), 1.18921, digits(6))
	if !raised(got.Cautions, "flying") {
		t.Error("no standing caution")
	}
}

func TestTurningLimits(t *testing.T) {
	p := modelGlider(1.2)
	level := must[BestGlideResult](t)(BestGlide(BestGlideInput{Airframe: p}))
	flat := must[TurningResult](t)(Turning(TurningInput{Airframe: p, Bank: 1e-6}))
	near(t, "speed without bank", flat.Speed, level.Speed, 1e-9)
	near(t, "sink without bank", flat.Sink, level.Sink, 1e-9)
	for _, bank := range []float64{-0.1, 0, math.Pi / 2, math.NaN()} {
		_, err := Turning(TurningInput{Airframe: p, Bank: bank})
		wrongField(t, err, "bank")
	}
	// Lift's sideways part bends the path: the forces in the exact turn.
	for bank := 0.1; bank < 1.3; bank += 0.2 {
		got := must[TurningResult](t)(Turning(TurningInput{Airframe: p, Bank: bank}))
		lift := 0.5 * p.Density * got.Speed * got.Speed * p.Area * p.bestGlideCL()
		across := math.Sqrt(got.Speed*got.Speed - got.Sink*got.Sink)
		near(t, "centripetal force", lift*math.Sin(bank), p.Mass*across*across/got.Radius, 1e-12)
		drag := 0.5 * p.Density * got.Speed * got.Speed * p.Area * p.drag(p.bestGlideCL())
		near(t, "vertical force", lift*math.Cos(bank)*across/got.Speed+drag*got.Sink/got.Speed, p.weight(), 1e-12)
	}
}
