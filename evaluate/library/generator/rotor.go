package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// RotorPullInput is what [RotorPull] reads.
type RotorPullInput struct {
	Magnet DiscMagnet `help:"one of the discs"`
	Poles  int        `range:"[2,100]" help:"discs of one rotor, an even number"`
	Radius float64    `unit:"mm" range:"(0,)" help:"of the circle of their centres"`
	Gap    float64    `unit:"mm" range:"(0,)" help:"between the faces, or from the face to the keeper"`
	Rotor  string     `default:"facing" values:"facing backed keeper" help:"two rotors, two on iron, one facing a plate"`
}

// RotorPullResult is how hard the rotors pull.
type RotorPullResult struct {
	Pull          float64 `unit:"N" show:"1" help:"of one rotor on the other, or on the plate"`
	PullPerMagnet float64 `unit:"N"`
	model.Cautions
}

// fingerPull is a pull that a hand does not hold apart (common practice).
const fingerPull = 50.0

// RotorPull is the attraction between two rotors of disc magnets, or of one
// rotor to an iron plate.
//
// Formula: F_all = n·F1, n magnets a disc; F_all = n·π·R²·Br²/µ0·∫ J1(kR)²/k·(F/2)²·Σ(−1)^m·J0(k·s_m) dk, s_m = 2·r·sin(π·m/n) from one disc to its m-th neighbour, F as for the generator's flux (2·e^(−kg/2)·(1 − e^(−kt)) without iron); towards a plate the mirror image at twice the gap pulls
//
// Letters: n poles; F_all = pull; F1 = pull_per_magnet.
//
// Validity: permeability 1, iron without saturation (an upper bound); magnets
// facing unlike poles.
//
// Source: force between charged discs, Hankel transform; magnetic stress in mid gap
//
// Example:
//
//	m = magnet_disc(20 mm, 5 mm, 1.28 T)
//	pull = rotor_pull(m, 12, 45 mm, 10 mm)
//	F [N] = pull.pull
func RotorPull(in RotorPullInput) (RotorPullResult, error) {
	err := require.All(require.Positive("magnet.diameter", in.Magnet.Diameter, "m"),
		require.Positive("magnet.thickness", in.Magnet.Thickness, "m"),
		require.Positive("magnet.remanence", in.Magnet.Remanence, "T"), require.Positive("radius", in.Radius, "m"),
		require.Positive("gap", in.Gap, "m"))
	if err == nil {
		err = checkCircle(1, in.Poles, 1)
	}
	if err != nil {
		return RotorPullResult{}, err
	}
	d := discs{poles: in.Poles, remanence: in.Magnet.Remanence, radius: in.Magnet.Diameter / 2, thick: in.Magnet.Thickness,
		pitch: in.Radius, coilRing: in.Radius, gap: in.Gap, rotor: in.Rotor}
	if in.Rotor == "keeper" {
		d.gap, d.rotor = 2*in.Gap, "facing" // its mirror image
	}
	if err := d.fits(1); err != nil {
		return RotorPullResult{}, err
	}
	if waves := d.pullReach() / d.pullStep() * float64(d.poles); !(waves < mostWaves) {
		return RotorPullResult{}, &model.Error{Field: "gap", Summary: "is too small against the circle of the magnets to sum up their pull",
			Hint: "give the gap between the magnets' faces, which is a fraction of a magnet at least"}
	}
	out := RotorPullResult{Pull: d.pull()}
	out.PullPerMagnet = out.Pull / float64(in.Poles)
	pullCaution(&out.Cautions, out.Pull)
	strongMagnets(&out.Cautions)
	return out, nil
}

// pull is the force between two facing rotors, to 1e-9: until four panels in a row add
// nothing to it.
func (d discs) pull() float64 {
	const enough = 1e-12
	apart := make([]float64, d.poles/2) // from a disc to its neighbours
	for m := range apart {
		apart[m] = 2 * d.pitch * math.Sin(math.Pi*float64(m+1)/float64(d.poles))
	}
	f := func(k float64) float64 {
		j, half := math.J1(k*d.radius), d.axial(k)/2
		return j * j / k * half * half * d.pulled(k, apart)
	}
	step, sum := d.pullStep(), 0.0
	for i, quiet := 0, 0; float64(i)*step < d.pullReach() && quiet < 4; i++ {
		part := waves.over(float64(i)*step, float64(i+1)*step, f)
		sum += part
		if quiet++; math.Abs(part) > enough*math.Abs(sum) {
			quiet = 0
		}
	}
	return float64(d.poles) * math.Pi * d.radius * d.radius * d.remanence * d.remanence / mu0 * sum
}

// pulled is what all discs of one rotor count for one of the other, in one wave number.
func (d discs) pulled(k float64, apart []float64) float64 {
	ring := 1.0
	for m, s := range apart { // and as many on the other side, of which one is opposite
		both := float64(4*(m%2) - 2)
		if 2*(m+1) == d.poles {
			both /= 2
		}
		ring += both * math.J0(k*s)
	}
	return ring
}

// pullStep is a stretch of wave numbers in which the integrand turns four times at the
// most; behind pullReach it has died away.
func (d discs) pullStep() float64  { return 8 * math.Pi / (2*d.pitch + 2*d.radius) }
func (d discs) pullReach() float64 { return 40 / d.gap }

// mostWaves bounds the stretches times the magnets: some milliseconds.
const mostWaves = 12_500

func pullCaution(c *model.Cautions, pull float64) {
	if pull <= fingerPull {
		return
	}
	c.Raise(model.Caution{ID: "rotors-pull-together", Level: model.Danger, Severity: pull,
		Summary: "The rotors snap shut on fingers with {0}.",
		Values:  []model.Value{model.In(pull, "N")},
		Why:     "The pull grows as the gap closes, and a printed rotor bows until it rubs on the coils: it wants a stiff plate.",
		Hint:    "Close them by jacking screws, never by hand.",
		Source:  "common practice; the magnets' sheet comes first"})
}

// MagnetHoldInput is what [MagnetHold] reads.
type MagnetHoldInput struct {
	Mass     float64 `unit:"g" range:"(0,)" help:"of one magnet" symbol:"m"`
	Area     float64 `unit:"mm^2" range:"(0,)" help:"of its glue"`
	Radius   float64 `unit:"mm" range:"(0,)" help:"of the circle of the magnets' centres"`
	Rotation float64 `unit:"rpm" range:"[0,)" help:"fastest of the rotor"`
	Strength float64 `unit:"N/mm^2" default:"5 N/mm^2" range:"(0,)" help:"of the glue in shear, as it is in a workshop"`
	Safety   float64 `unit:"1" default:"5" range:"[1,)" help:"factor on the load"`
}

// MagnetHoldResult is what holds a magnet on.
type MagnetHoldResult struct {
	Load         float64 `unit:"N" show:"1" help:"outward, on one magnet"`
	Shear        float64 `unit:"N/mm^2" help:"in its glue"`
	SafeRotation float64 `unit:"rpm" show:"2" help:"at the safety factor"`
	RimSpeed     float64 `unit:"m/s" help:"of the magnets' centres"`
	model.Cautions
}

// MagnetHold is the centrifugal load on a rotor's magnet and its glue.
//
// Formula: F = m·ω²·r; τ = F/A; safe ω_s = √(τ_max·A/(s·m·r)); v = ω·r
//
// Letters: m mass; ω rotation; r radius; A area; τ_max strength; s safety; F = load; τ = shear; ω_s = safe_rotation; v = rim_speed.
//
// Validity: glue alone, its strength much below the maker's sheet for lack of
// a clean surface and with age; a band or ring should hold the magnets besides.
//
// Source: textbook; strength and factor common practice, no source
//
// Example:
//
//	hold = magnet_hold(12 g, 300 mm^2, 45 mm, 900 rpm)
//	F [N] = hold.load
func MagnetHold(in MagnetHoldInput) (MagnetHoldResult, error) {
	err := require.All(require.Positive("mass", in.Mass, "kg"), require.Positive("area", in.Area, "m^2"),
		require.Positive("radius", in.Radius, "m"), require.Positive("strength", in.Strength, "Pa"),
		require.Positive("safety", in.Safety, "1"), require.NotNegative("rotation", in.Rotation, "rad/s"))
	if err != nil {
		return MagnetHoldResult{}, err
	}
	load := in.Mass * in.Rotation * in.Rotation * in.Radius
	out := MagnetHoldResult{Load: load, Shear: load / in.Area, RimSpeed: in.Rotation * in.Radius,
		SafeRotation: math.Sqrt(in.Strength * in.Area / (in.Safety * in.Mass * in.Radius))}
	if in.Rotation > out.SafeRotation {
		out.Raise(model.Caution{ID: "magnet-glue-overloaded", Level: model.Danger,
			Summary: "At {0} the magnets' glue is past its safe {1}.",
			Values:  []model.Value{model.In(in.Rotation*30/math.Pi, "rpm"), model.In(out.SafeRotation*30/math.Pi, "rpm")},
			Why:     "A magnet that comes off flies like a shot: prove the rotor behind a guard.",
			Hint:    "Turn slower, or band the magnets.",
			Source:  "F = m·ω²·r; common practice for the factor; the glue's sheet comes first"})
	}
	spinningRotor(&out.Cautions)
	gluing(&out.Cautions)
	return out, nil
}

// gluing is the standing hazard of the glue that holds a magnet.
func gluing(c *model.Cautions) {
	c.Raise(model.Caution{ID: "glue-on-skin", Level: model.Warning, Standing: true,
		Summary: "Glues bond skin, burn it, or make it allergic.",
		Why:     "Quick glue bonds skin and eyelids, epoxy makes skin allergic, hot glue burns. Cyanoacrylate heats up on cotton gloves and wool, enough to burn; soak bonded skin in warm soapy water, and leave eyes to a doctor.",
		Hint:    "Air the room; nitrile gloves, eye protection.",
		Source:  "makers' safety sheets, which come first, from memory"})
}
