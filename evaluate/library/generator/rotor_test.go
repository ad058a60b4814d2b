package generator

import (
	"errors"
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

func TestRotorPull(t *testing.T) {
	in := RotorPullInput{Magnet: DiscMagnet{20e-3, 5e-3, 1.28}, Poles: 12, Radius: 45e-3, Gap: 10e-3, Rotor: "facing"}
	r, err := RotorPull(in)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("pull %.4g N", r.Pull)
	// Two rotors of twelve such discs pull over 100 N (common practice, no source).
	if r.Pull < 100 || r.Pull > 400 || r.List[0].ID != "rotors-pull-together" {
		t.Errorf("pull %g N, %v", r.Pull, r.List)
	}
	kit.Near(t, "by charges", r.Pull, pullByCharges(in), 0.02)
	in.Rotor = "backed"
	backed, _ := RotorPull(in)
	if backed.Pull <= r.Pull {
		t.Error("iron pulls no harder")
	}
	in.Rotor = "keeper"
	in.Gap /= 2
	keeper, _ := RotorPull(in)
	kit.Near(t, "a plate at half the gap stands for the other rotor", keeper.Pull, r.Pull, 1e-12)
	in.Radius = 20e-3
	if _, err := RotorPull(in); err == nil {
		t.Error("magnets that touch have no answer")
	}
}

// pullByCharges sums Coulomb's law over the charged faces of both rotors.
func pullByCharges(in RotorPullInput) float64 {
	const rings, spokes = 7, 16
	r := in.Magnet.Diameter / 2
	var x, y, q []float64
	for i := range rings {
		lo, hi := r*float64(i)/rings, r*float64(i+1)/rings
		for j := range spokes {
			a, s := 2*math.Pi*(float64(j)+0.5*float64(i%2))/spokes, math.Sqrt((lo*lo+hi*hi)/2)
			x, y, q = append(x, s*math.Cos(a)), append(y, s*math.Sin(a)), append(q, math.Pi*(hi*hi-lo*lo)/spokes)
		}
	}
	force := 0.0
	for m := range in.Poles {
		a := 2 * math.Pi * float64(m) / float64(in.Poles)
		ox, oy := in.Radius*(1-math.Cos(a)), -in.Radius*math.Sin(a)
		for _, s := range []struct{ z, sign float64 }{{in.Gap, 1}, {in.Gap + in.Magnet.Thickness, -2}, {in.Gap + 2*in.Magnet.Thickness, 1}} {
			for i := range x {
				for j := range x {
					dx, dy := x[i]-x[j]+ox, y[i]-y[j]+oy
					force += float64(1-2*(m%2)) * s.sign * q[i] * q[j] * s.z / math.Pow(dx*dx+dy*dy+s.z*s.z, 1.5)
				}
			}
		}
	}
	return float64(in.Poles) * force * in.Magnet.Remanence * in.Magnet.Remanence / (4 * math.Pi * mu0)
}

func TestMagnetHold(t *testing.T) {
	h, err := MagnetHold(MagnetHoldInput{Mass: 12e-3, Area: 300e-6, Radius: 45e-3, Rotation: 900 * rpm, Strength: 5e6, Safety: 5})
	if err != nil {
		t.Fatal(err)
	}
	// F = m·v²/r (textbook), by way of the rim speed.
	kit.Near(t, "load", h.Load, 12e-3*h.RimSpeed*h.RimSpeed/45e-3, 1e-12)
	at, _ := MagnetHold(MagnetHoldInput{Mass: 12e-3, Area: 300e-6, Radius: 45e-3, Rotation: h.SafeRotation * 1.01, Strength: 5e6, Safety: 5})
	kit.Near(t, "at the safe speed the load is the strength by the factor", at.Shear, 1e6*1.01*1.01, 1e-12)
	if len(at.List) != 3 || at.List[0].ID != "magnet-glue-overloaded" || len(h.List) != 2 || h.List[1].ID != "glue-on-skin" {
		t.Errorf("%v; %v", at.List, h.List)
	}
}

func TestGroupings(t *testing.T) {
	c := lapwingCharge(t)
	g, err := Groupings(t.Context(), GroupingsInput{c})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range g.Groups {
		if r.Time != nil {
			t.Logf("%-28s %d x %d %6.2f V %6.3f Ω %6.1f s %5.2f N·m", r.Grouping, r.Series, r.Parallel, r.Ceiling, r.Resistance, *r.Time, *r.PeakTorque)
		} else {
			t.Logf("%-28s %d x %d %6.2f V %6.3f Ω never", r.Grouping, r.Series, r.Parallel, r.Ceiling, r.Resistance)
		}
	}
	if g.Reach == 0 || g.Reach == g.Ways {
		t.Errorf("%d of %d ways reach it; several never do", g.Reach, g.Ways)
	}
	if len(g.List) != 1 || g.List[0].ID != "best-grouping-can-overcharge" {
		t.Errorf("cautions %v", g.List)
	}
	direct, err := HandCharge(t.Context(), c)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range g.Groups {
		if r.Grouping == "star" && r.Series == 3 {
			kit.Near(t, "the star by itself", *r.Time, direct.Time, 1e-12)
		}
	}
	c.Gearing = 0
	var e *model.Error
	if _, err := Groupings(t.Context(), GroupingsInput{c}); !errors.As(err, &e) || e.Field != "gearing" {
		t.Errorf("%v", err)
	}
}

func TestRectifierChoice(t *testing.T) {
	g := lapwing(t, nil).Machine
	store := ChargedStore{Capacitance: 20, Resistance: 50e-3}
	d, err := RectifierChoice(RectifierChoiceInput{Generator: g, Store: store, Rotation: 900 * rpm, Power: 1e9, Leakage: 1e-4})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "half as much again as √3·E", d.ReverseVoltage, 1.5*math.Sqrt(3)*g.PhaseConstant*900*rpm, 1e-12)
	if d.Diodes != 6 || d.PeakCurrent <= d.MeanCurrent {
		t.Errorf("%+v", d)
	}
	kit.Near(t, "drain", d.BackDrain, 3e-4, 1e-12)
	// Each diode of three carries a third: their losses make the whole.
	kit.Near(t, "loss", 6*d.MeanCurrent*g.DiodeDrop, d.Loss, 1e-12)
	// The bound of 1 W on a bare diode is common practice, no source.
	for _, rotation := range []float64{300 * rpm, 900 * rpm, 9000 * rpm} {
		d, err := RectifierChoice(RectifierChoiceInput{Generator: g, Store: store, Rotation: rotation, Power: 1e9})
		if hot := d.Loss/6 > 1; err != nil || hot != kit.Raised(d.List, "diodes-hot") {
			t.Errorf("%g W a diode: %v, %v", d.Loss/6, d.List, err)
		}
	}
	b, _ := BlockingDiode(BlockingDiodeInput{Machine: "brushed", Voltage: 5, Resistance: 1.25})
	if !b.Needed || b.BackCurrent != 4 || b.BackPower != 20 || len(b.List) != 1 {
		t.Errorf("%+v", b)
	}
	if b, _ := BlockingDiode(BlockingDiodeInput{Machine: "bridge", Voltage: 5, Resistance: 1}); b.Needed || b.BackCurrent != 0 {
		t.Errorf("%+v", b)
	}
}

// TestRectifierWithinTheArm: the rotor gets no more than somebody gives, who turns slower
// for it: no diode is hot for a power that nobody cranks.
func TestRectifierWithinTheArm(t *testing.T) {
	in := RectifierChoiceInput{Generator: lapwing(t, nil).Machine, Store: ChargedStore{Capacitance: 20, Resistance: 50e-3}, Rotation: 3000 * rpm, Power: 40}
	spin := HandChargeInput{Generator: in.Generator, Store: in.Store, Cadence: in.Rotation, Gearing: 1, GearEfficiency: 1, PowerLimit: &in.Power}
	p := spin.at(0)
	kit.Near(t, "the rotor gets it", p.crankPower(), 40, 1e-9)
	d := kit.Must(RectifierChoice(in))(t)
	if d.Loss >= 40 || kit.Raised(d.List, "diodes-hot") != (d.Loss/6 > 1) {
		t.Errorf("%g W in the diodes: %v", d.Loss, d.List)
	}
	// The reverse voltage is that of the fastest all the same: the store may be unplugged.
	kit.Near(t, "reverse", d.ReverseVoltage, 1.5*in.Generator.CeilingConstant*in.Rotation, 1e-12)
	in.Power = 400
	if more := kit.Must(RectifierChoice(in))(t); more.Loss <= d.Loss || !kit.Raised(more.List, "diodes-hot") {
		t.Errorf("%g W in the diodes at ten times the power", more.Loss)
	}
}
