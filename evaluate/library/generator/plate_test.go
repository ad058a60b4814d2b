package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func printedRotor() RotorSagInput {
	return RotorSagInput{Pull: 119.6, Radius: 45e-3, Outer: 58e-3, Hub: 10e-3, Thickness: 5e-3, Modulus: 2.5e9, Poisson: 0.35}
}

// TestRotorSag: 119.6 N on 5 mm of 2.5 GPa, clamped at r 10 mm, bows 0.22 mm (a
// solution of the plate apart from this code).
func TestRotorSag(t *testing.T) {
	r := kit.Must(RotorSag(printedRotor()))(t)
	t.Logf("sag %.4f mm, rim %.4f mm, %.2f N/mm²", r.Sag*1e3, r.Rim*1e3, r.Stress/1e6)
	kit.Near(t, "sag", r.Sag, 0.22e-3, 0.03)
}

// TestRotorSagByShooting shoots the plate's slope outward from the hub, with the curvature
// there that leaves no moment at the rim, by steps of fourth order.
func TestRotorSagByShooting(t *testing.T) {
	in := printedRotor()
	d := in.Modulus * math.Pow(in.Thickness, 3) / (12 * (1 - in.Poisson*in.Poisson))
	const steps = 4000
	shoot := func(curvature float64) (moment, sag, stress float64) {
		phi, bend := 0.0, curvature
		h := (in.Outer - in.Hub) / steps
		for i := range steps {
			r := in.Hub + h*float64(i)
			f := func(r, phi, bend float64) (float64, float64) {
				shear := 0.0
				if r < in.Radius {
					shear = -in.Pull / (2 * math.Pi * d * r)
				}
				return bend, shear - bend/r + phi/(r*r) // (1/r·(r·φ)′)′ = φ″ + φ′/r − φ/r²
			}
			a1, b1 := f(r, phi, bend)
			a2, b2 := f(r+h/2, phi+h/2*a1, bend+h/2*b1)
			a3, b3 := f(r+h/2, phi+h/2*a2, bend+h/2*b2)
			a4, b4 := f(r+h, phi+h*a3, bend+h*b3)
			next := phi + h/6*(a1+2*a2+2*a3+a4)
			if r < in.Radius {
				sag += h * (phi + next) / 2
			}
			phi, bend = next, bend+h/6*(b1+2*b2+2*b3+b4)
		}
		return bend + in.Poisson*phi/in.Outer, sag, 6 * d * curvature / (in.Thickness * in.Thickness)
	}
	m0, _, _ := shoot(0)
	m1, _, _ := shoot(1)
	_, sag, stress := shoot(m0 / (m0 - m1))
	got := kit.Must(RotorSag(in))(t)
	kit.Near(t, "sag", got.Sag, sag, 1e-3)
	kit.Near(t, "stress", got.Stress, stress, 1e-3)
}

// TestRotorSagLimits: twice as thick bows an eighth; the magnets at the rim are a plate
// loaded along its edge; near misses are refused by the input at fault.
func TestRotorSagLimits(t *testing.T) {
	in := printedRotor()
	once := kit.Must(RotorSag(in))(t)
	in.Thickness *= 2
	kit.Near(t, "by the cube", kit.Must(RotorSag(in))(t).Sag, once.Sag/8, 1e-12)
	in.Outer = in.Radius
	if edge := kit.Must(RotorSag(in))(t); edge.Sag != edge.Rim || edge.Sag < once.Sag/8 {
		t.Errorf("%g at the magnets, %g at the rim", edge.Sag, edge.Rim)
	}
	in.Hub = 50e-3
	_, err := RotorSag(in)
	kit.Refuses(t, err, "radius")
	in = printedRotor()
	for clearance, want := range map[float64]bool{0.5e-3: true, 1e-3: false} {
		in.Clearance = &clearance
		if got := kit.Raised(kit.Must(RotorSag(in))(t).List, "rotor-bows-to-coils"); got != want {
			t.Errorf("%g m to the coils: said %v", clearance, got)
		}
	}
	in.Thickness = 1e-3
	if !kit.Raised(kit.Must(RotorSag(in))(t).List, "plate-past-theory") {
		t.Error("a plate that bows by its thickness is past the theory")
	}
}

// TestRotorBalance: one magnet of twelve that is a gram heavier at 45 mm is 45 g·mm
// out; a grade of 6.3 mm/s allows 20 g·mm/kg at 3000 rpm (ISO 21940-11, its chart, from memory).
func TestRotorBalance(t *testing.T) {
	in := RotorBalanceInput{Radius: 45e-3, Rotation: 3000 * rpm, Mass: 0.3, Grade: 6.3e-3}
	for i := range 12 {
		in.Masses = append(in.Masses, 12e-3)
		if i == 3 {
			in.Masses[i] += 1e-3
		}
	}
	b := kit.Must(RotorBalance(in))(t)
	kit.Near(t, "unbalance", b.Unbalance, 45e-6, 1e-9)
	kit.Near(t, "opposite", b.Angle, (90+180)*math.Pi/180, 1e-9)
	kit.Near(t, "weight", b.Weight, 1e-3, 1e-9)
	kit.Near(t, "20 g·mm/kg", b.Allowed/in.Mass, 20e-6, 0.005)
	kit.Near(t, "F = m·ω²·r", b.Force, 1e-3*45e-3*math.Pow(100*math.Pi, 2), 1e-9)
	if !kit.Raised(b.List, "rotor-unbalanced") {
		t.Error("not said")
	}
	// The weight that it names balances it: laid where it says, between the magnets.
	x, y := 0.0, 0.0
	for i, m := range in.Masses {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 12)
		x, y = x+m*in.Radius*c, y+m*in.Radius*s
	}
	s, c := math.Sincos(b.Angle)
	kit.Within(t, "balanced", math.Hypot(x+b.Weight*in.Radius*c, y+b.Weight*in.Radius*s), 0, 1e-12)
	in.Masses[3] = 12e-3
	if even := kit.Must(RotorBalance(in))(t); even.Unbalance > 1e-12 || kit.Raised(even.List, "rotor-unbalanced") {
		t.Errorf("%+v", even)
	}
	in.Mass = 0.1
	_, err := RotorBalance(in)
	kit.Refuses(t, err, "mass")
}

// TestCrankArm: 100 N on 150 mm of 20 mm × 10 mm bends it by M/W = 15 N·m/667 mm³ =
// 22.5 N/mm² (textbook beam).
func TestCrankArm(t *testing.T) {
	in := CrankArmInput{Force: 100, Length: 0.15, Depth: 20e-3, Width: 10e-3, Strength: 30e6, Modulus: 2.5e9}
	a := kit.Must(CrankArm(in))(t)
	kit.Near(t, "stress", a.Stress, 22.5e6, 1e-12)
	kit.Near(t, "F·L³/(3·E·I)", a.Bending, 100*0.003375/(3*2.5e9*6.666666667e-9), 1e-9)
	if !kit.Raised(a.List, "crank-may-break") {
		t.Errorf("safety %g", a.Safety)
	}
	in.Strength = 68e6
	if kit.Raised(kit.Must(CrankArm(in))(t).List, "crank-may-break") {
		t.Error("three times is enough")
	}
	// A square shaft that is only twisted: τ = 4.8·T/s³ (Roark 0.208·s³, from memory).
	in.Length, in.Depth, in.Overhang = 1e-9, 10e-3, 60e-3
	kit.Near(t, "τ", kit.Must(CrankArm(in))(t).Stress/math.Sqrt(3), 6/(0.208*1e-6), 2e-3)
}

// TestCrankArmBySections sums the curvature from the axle to the handle.
func TestCrankArmBySections(t *testing.T) {
	in := CrankArmInput{Force: 80, Length: 0.17, Depth: 24e-3, Width: 9e-3, Strength: 30e6, Modulus: 3e9}
	slope, bent := 0.0, 0.0
	const n = 20000
	h, inertia := in.Length/n, in.Width*math.Pow(in.Depth, 3)/12
	for i := range n {
		x := (float64(i) + 0.5) * h
		slope += in.Force * (in.Length - x) / (in.Modulus * inertia) * h
		bent += slope * h
	}
	kit.Near(t, "bending", kit.Must(CrankArm(in))(t).Bending, bent, 1e-4)
}

// TestGearTeeth: Shigley's Mechanical Engineering Design, example 14-1 (from memory): 16
// teeth of 8 to the inch, 1.5 in wide, at 10 kpsi and a factor of 1.52 carry 365 lbf.
func TestGearTeeth(t *testing.T) {
	const lbf, inch = 4.4482216, 25.4e-3
	in := GearTeethInput{Teeth: 16, Module: inch / 8, Width: 1.5 * inch, Strength: 68.95e6, Dynamic: 1.52}
	in.Torque = 365 * lbf * in.Module * in.Teeth / 2
	g := kit.Must(GearTeeth(in))(t)
	kit.Near(t, "force", g.Force, 365*lbf, 1e-12)
	kit.Near(t, "stress", g.Stress, 68.95e6, 2e-3)
	if !kit.Raised(g.List, "teeth-may-break") {
		t.Errorf("safety %g", g.Safety)
	}
	// The inverse: at a third of the torque they bear three times of it.
	in.Torque /= 3.01
	if g = kit.Must(GearTeeth(in))(t); kit.Raised(g.List, "teeth-may-break") || g.Safety < 3 {
		t.Errorf("safety %g", g.Safety)
	}
	// Between the rows of the table, and in order.
	last := 0.0
	for z := 12.0; z < 400; z++ {
		if y := form(z); y <= last || y > 0.485 {
			t.Errorf("%g teeth: %g after %g", z, y, last)
		} else {
			last = y
		}
	}
	in.Teeth = 11
	_, err := GearTeeth(in)
	kit.Refuses(t, err, "teeth")
}

// TestPlanetFits: a planet has half of the teeth by which ring and sun differ.
func TestPlanetFits(t *testing.T) {
	_, err := PlanetaryGear(PlanetaryGearInput{Sun: 18, Ring: 55})
	kit.Refuses(t, err, "ring")
}
