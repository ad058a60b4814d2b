package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// The independent route: the pressure as Glauert's series instead of its sum.
func TestHingeSlopeBySeries(t *testing.T) {
	for _, share := range []float64{0.15, 0.25, 0.4, 0.7} {
		hinge := math.Acos(2*share - 1)
		start := (1 - math.Cos(hinge)) / 2
		sum, steps := 0.0, 4000
		for i := range steps {
			a := hinge + (math.Pi-hinge)*(float64(i)+0.5)/float64(steps)
			p := 4 / math.Pi * (math.Pi - hinge) * (1 + math.Cos(a)) / math.Sin(a)
			for n := 1.0; n <= 400; n++ {
				p += 8 / math.Pi * math.Sin(n*hinge) * math.Sin(n*a) / n
			}
			sum += p * ((1-math.Cos(a))/2 - start) * math.Sin(a) / 2
		}
		kit.Near(t, "hinge slope by series", hingeSlope(share), sum*(math.Pi-hinge)/float64(steps)/(share*share), 1e-4)
	}
}

func TestHingeMoment(t *testing.T) {
	// A whole section that is one flap: lift 2π at a quarter chord, by thin
	// aerofoil theory, hinged at its nose.
	kit.Near(t, "a flap that is the whole section", hingeSlope(1-1e-9), 2*math.Pi/4, 1e-3)
	in := HingeMomentInput{Speed: 15, Area: 0.005, Chord: 0.03, Deflection: 0.35, Share: 0.25, Density: 1.225}
	one := kit.Must(HingeMoment(in))(t)
	in.Speed = 30
	kit.Near(t, "twice the speed, four times the moment", kit.Must(HingeMoment(in))(t).Moment, 4*one.Moment, 1e-12)
	in.Share = 1
	_, err := HingeMoment(in)
	kit.Refuses(t, err, "share")
	in.Area = -1
	_, err = HingeMoment(in)
	kit.Refuses(t, err, "area")
}

// The independent route: the elliptic load summed over the half wing, and the
// tube's stress summed over its section.
func TestSpar(t *testing.T) {
	p := Plane{Mass: 0.39, Span: 1.10, Area: 0.165, CD0: 0.035, Oswald: 0.78, CLMax: 1.1, Density: 1.225}
	in := SparInput{Airframe: p, WingMass: 0.11, LoadFactor: new(4.0), Diameter: new(0.006), Bore: 0.004}
	got := kit.Must(Spar(in))(t)
	half, moment, area := 0.55, 0.0, 0.0
	const strips = 20000
	for i := range strips {
		y := half * (float64(i) + 0.5) / strips
		load := math.Sqrt(1 - y*y/(half*half))
		area, moment = area+load, moment+load*y
	}
	kit.Near(t, "root bending by strips", got.Moment, 4*0.28*gravity/2*moment/area, 1e-6)
	inertia := 0.0
	for i := range strips {
		r := 0.002 + 0.001*(float64(i)+0.5)/strips
		inertia += math.Pi * r * r * r * 0.001 / strips
	}
	kit.Near(t, "stress by rings", got.Stress, got.Moment*0.003/inertia, 1e-6)

	// A solid rectangle is two caps that meet.
	in.Diameter, in.CapWidth, in.CapThickness, in.Depth = nil, new(0.005), 0.004, 0.008
	kit.Near(t, "caps that meet", kit.Must(Spar(in))(t).Stress, got.Moment*6/(0.005*0.008*0.008), 1e-12)

	in.LoadFactor, in.Speed, in.Strength = nil, new(2*p.StallSpeed()), new(1e6)
	pull := kit.Must(Spar(in))(t)
	kit.Near(t, "pull-up at twice the stall speed", pull.LoadFactor, 4, 1e-12)
	if !kit.Raised(pull.List, "spar-over-stress") {
		t.Error("an overloaded spar raises no caution")
	}
}

// TestSparCautions wants the dust said of every spar, and the stress of those
// that are past their strength.
func TestSparCautions(t *testing.T) {
	in := SparInput{Airframe: glider(), WingMass: 0.1, LoadFactor: new(6.0), Diameter: new(6e-3), Bore: 4e-3}
	stress := kit.Must(Spar(in))(t).Stress
	for part, want := range map[float64]bool{0.99: true, 1.01: false} {
		in.Strength = new(part * stress)
		got := kit.Must(Spar(in))(t)
		if kit.Raised(got.List, "spar-over-stress") != want || !kit.Raised(got.List, "fibre-dust") {
			t.Errorf("%g of the stress as strength: %v", part, got.List)
		}
	}
}

func TestSparRefuses(t *testing.T) {
	for field, spoil := range map[string]func(*SparInput){
		"airframe.mass": func(in *SparInput) { in.Airframe.Mass = 0 }, "wing_mass": func(in *SparInput) { in.WingMass = 1 },
		"speed": func(in *SparInput) { in.LoadFactor = nil }, "load_factor": func(in *SparInput) { in.LoadFactor = new(-1.0) },
		"diameter": func(in *SparInput) { in.Diameter = nil }, "bore": func(in *SparInput) { in.Bore = 1 },
		"depth":         func(in *SparInput) { in.Diameter, in.CapWidth, in.CapThickness, in.Depth = nil, new(1.0), 1, 1 },
		"cap_thickness": func(in *SparInput) { in.Diameter, in.CapWidth = nil, new(1.0) },
	} {
		in := SparInput{Airframe: modelGlider(1), LoadFactor: new(4.0), Diameter: new(0.006)}
		spoil(&in)
		_, err := Spar(in)
		kit.Refuses(t, err, field)
	}
}
