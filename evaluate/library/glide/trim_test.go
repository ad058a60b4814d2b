package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

const degree = math.Pi / 180

// The published example: V 0.34, a 0.08 and a_t 0.1 a degree, dε/dα 0.35, CM_ac
// −0.032, h − h_ac 0.11, tail 2.7° nose down: CM −0.064954 at 9.38°.
func TestTailTrim(t *testing.T) {
	const source = "J. D. Anderson, Introduction to Flight, example 7.4"
	in := TailTrimInput{CL: 0.08 * 9.38, Centre: 0.36, AerodynamicCentre: 0.25, TailVolume: 0.34, WingSlope: new(0.08 / degree), TailSlope: new(0.1 / degree),
		Downwash: new(0.35), TailEfficiency: 1, SectionMoment: -0.032, Incidence: new(-2.7 * degree)}
	kit.Near(t, "CM, "+source, *kit.Must(TailTrim(in))(t).Moment, -0.064954, kit.Digits(5))
	for field, spoil := range map[string]func(*TailTrimInput){
		"CL": func(in *TailTrimInput) { in.CL = 0 }, "tail_volume": func(in *TailTrimInput) { in.TailVolume = -1 },
		"downwash": func(in *TailTrimInput) { in.Downwash = nil }, "aspect_ratio": func(in *TailTrimInput) { in.WingSlope = nil },
		"tail_aspect_ratio": func(in *TailTrimInput) { in.TailSlope = nil },
	} {
		spoiled := in
		spoil(&spoiled)
		_, err := TailTrim(spoiled)
		kit.Refuses(t, err, field)
	}
}

// The other route: where the moment of the tail as it stands passes zero, found
// by halving, is the incidence; and with the centre at the neutral point no
// change of lift changes it but by the tail's share.
func TestTailTrimBySearch(t *testing.T) {
	in := TailTrimInput{CL: 0.6, Centre: 0.38, AerodynamicCentre: 0.25, TailVolume: 0.5, AspectRatio: new(7.3), TailAspectRatio: new(4.0), TailEfficiency: 0.9, SectionMoment: -0.05}
	got := kit.Must(TailTrim(in))(t)
	low, high := -30*degree, 30*degree
	for range 80 {
		middle := (low + high) / 2
		in.Incidence = &middle
		if *kit.Must(TailTrim(in))(t).Moment > 0 {
			low = middle // nose up: the tail has to lift more
		} else {
			high = middle
		}
	}
	kit.Near(t, "incidence", got.Incidence, low, 1e-9)
	in.Incidence = nil
	in.Centre = kit.Must(NeutralPoint(NeutralPointInput{TailVolume: 0.5, AspectRatio: in.AspectRatio, TailAspectRatio: in.TailAspectRatio, TailEfficiency: 0.9, AerodynamicCentre: 0.25}))(t).NeutralPoint
	a := kit.Must(TailTrim(in))(t).Incidence
	in.CL = 0.9
	kit.Near(t, "indifferent at the neutral point", kit.Must(TailTrim(in))(t).Incidence, a, 1e-12)
}

// Blasius' plate: 1.328/√Re is 0.0041995 at 1e5, and half the speed makes it 41 %
// more; Prandtl's fifth-root law has 0.0074 there.
func TestSkinFriction(t *testing.T) {
	const source = "Blasius; Prandtl; J. D. Anderson, Introduction to Flight, chapter 4"
	kit.Near(t, "laminar, "+source, kit.Must(SkinFriction(SkinFrictionInput{1e5, "laminar"}))(t).Coefficient, 0.0041995, kit.Digits(5))
	kit.Near(t, "turbulent, "+source, kit.Must(SkinFriction(SkinFrictionInput{1e5, "turbulent"}))(t).Coefficient, 0.0074, kit.Digits(4))
	half := kit.Must(SkinFriction(SkinFrictionInput{0.5e5, "laminar"}))(t).Coefficient
	kit.Near(t, "half the speed, "+source, half/0.0041995, 1.41, kit.Digits(3))
	_, err := SkinFriction(SkinFrictionInput{-1, "laminar"})
	kit.Refuses(t, err, "reynolds")
	_, err = SkinFriction(SkinFrictionInput{1e5, "still"})
	kit.Refuses(t, err, "flow")
}

// The mean of the local friction 0.664/√Re_x along the plate, by the sum.
func TestSkinFrictionBySum(t *testing.T) {
	const re, steps = 8e4, 200_000
	sum := 0.0
	for i := range steps {
		x := (float64(i) + 0.5) / steps
		sum += 0.664 / math.Sqrt(re*x) / steps
	}
	kit.Near(t, "mean", kit.Must(SkinFriction(SkinFrictionInput{re, "laminar"}))(t).Coefficient, sum, 2e-3)
}

// At half its reference speed an airframe that is all friction has √2 of its
// CD0, 41 % more; at the reference speed what was given; without friction, and
// where no share is told, CD0 stays.
func TestLowReynoldsDrag(t *testing.T) {
	p := modelGlider(1.2)
	p.FrictionShare, p.FrictionSpeed = new(1.0), new(p.Reference())
	at := func(v float64) float64 { // of level flight
		cl := p.Reference() * p.Reference() / (v * v)
		return p.Drag(cl) - p.Induced()*cl*cl
	}
	kit.Near(t, "at the reference", at(p.Reference()), p.CD0, 1e-12)
	kit.Near(t, "at half of it, Blasius", at(p.Reference()/2), math.Sqrt2*p.CD0, 1e-12)
	p.Flow = "turbulent"
	kit.Near(t, "at half of it, Prandtl", at(p.Reference()/2), math.Pow(2, 0.2)*p.CD0, 1e-12)
	p.FrictionShare = new(0.0)
	kit.Near(t, "without friction", at(p.Reference()/2), p.CD0, 1e-12)
	kit.Near(t, "best glide without friction", p.BestGlideCL(), modelGlider(1.2).BestGlideCL(), 1e-6)
	kit.Near(t, "least sink without friction", p.leastSinkCL(), modelGlider(1.2).leastSinkCL(), 1e-5)
	for field, spoil := range map[string]func(*Plane){
		"friction_share": func(p *Plane) { p.FrictionShare = new(1.5) }, "friction_speed": func(p *Plane) { p.FrictionSpeed = nil },
		"flow": func(p *Plane) { p.Flow = "still" },
	} {
		q := p
		spoil(&q)
		_, err := Airframe(AirframeInput{q})
		kit.Refuses(t, err, field)
	}
}

// With friction that grows as it slows down, best glide, least sink and the best
// speed in the wind are what brute force finds, and least sink is faster flown.
func TestLowReynoldsPolar(t *testing.T) {
	p := modelGlider(2.5)
	p.FrictionShare, p.FrictionSpeed = new(0.7), new(10.0)
	best := func(of func(Trim) float64) float64 {
		least, at := math.Inf(1), 0.0
		for cl := 0.05; cl <= p.CLMax; cl += 1e-4 {
			if v := of(p.Trim(cl, 1)); v < least {
				least, at = v, cl
			}
		}
		return at
	}
	kit.Within(t, "best glide", p.BestGlideCL(), best(func(g Trim) float64 { return g.Angle }), 2e-4)
	kit.Within(t, "least sink", p.leastSinkCL(), best(func(g Trim) float64 { return g.Sink }), 2e-4)
	kit.Within(t, "into the wind", p.windCL(-2), best(func(g Trim) float64 { return -(g.Speed*math.Cos(g.Angle) - 2) / g.Sink }), 2e-4)
	same := kit.Must(Airframe(AirframeInput{p}))(t)
	kit.Near(t, "Reynolds number", same.Reynolds, 1.225*same.GlideSpeed*0.12/0.95/1.78938e-5, 1e-4)
	stopped := p
	stopped.PropellerDrag = 20e-4
	dragged, err := stopped.With("stopped")
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "a propeller adds its own drag alone", dragged.Drag(1)-p.Drag(1), 20e-4/0.12, 1e-9)
}
