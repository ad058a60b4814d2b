package workshop

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// BedFitInput is a part by its box, and a printer.
type BedFitInput struct {
	Length    float64 `unit:"mm" range:"(0,)" help:"of the part"`
	Width     float64 `unit:"mm" range:"(0,)" help:"of the part"`
	Height    float64 `unit:"mm" range:"(0,)" help:"of the part"`
	BedLength float64 `unit:"mm" range:"(0,)" help:"that can be printed on"`
	BedWidth  float64 `unit:"mm" range:"(0,)" help:"that can be printed on"`
	Room      float64 `unit:"mm" range:"(0,)" help:"height that can be printed"`
	Edge      float64 `unit:"mm" range:"[0,)" default:"3 mm" help:"around the part, for brim or skirt"`
}

// BedFitResult is how it goes on.
type BedFitResult struct {
	Fits     bool    `show:"1" help:"in some way"`
	Upright  string  `show:"2" help:"which side of the part stands upright: the lowest way that fits"`
	Turned   float64 `unit:"deg" show:"3" help:"of its longer side on the bed from the bed's longer side"`
	Standing float64 `unit:"mm" help:"how high it then is"`
	Ways     int     `help:"sides that may stand upright"`
	model.Cautions
}

// BedFit says whether a part fits a printer's bed, and which way it stands.
//
// Formula: a rectangle p by q, p the longer, lies in one of P by Q if p ≤ P and q ≤ Q, or else q ≤ Q and (P + Q)²/(p + q)² + (P − Q)²/(p − q)² ≥ 2.
//
// Validity: the part as the box around it, with one of its sides upright; leaning it is not looked at.
//
// Source: W. B. Carver, Amer. Math. Monthly 64 (1957) 114, from memory; J. E. Wetzel, Math. Mag. 73 (2000) 204, from memory.
//
// Example:
//
//	wing = bed_fit(235 mm, 110 mm, 14 mm, bed_length: 220 mm, bed_width: 220 mm, room: 250 mm)
func BedFit(in BedFitInput) (BedFitResult, error) {
	err := require.All(require.Positive("length", in.Length, "m"), require.Positive("width", in.Width, "m"), require.Positive("height", in.Height, "m"),
		require.Positive("bed_length", in.BedLength, "m"), require.Positive("bed_width", in.BedWidth, "m"), require.Positive("room", in.Room, "m"),
		require.NotNegative("edge", in.Edge, "m"))
	if err != nil {
		return BedFitResult{}, err
	}
	out := BedFitResult{Upright: "none"}
	for _, way := range []struct {
		name     string
		up, a, b float64
	}{{"height", in.Height, in.Length, in.Width}, {"width", in.Width, in.Length, in.Height}, {"length", in.Length, in.Width, in.Height}} {
		angle, ok := lies(max(way.a, way.b)+2*in.Edge, min(way.a, way.b)+2*in.Edge, max(in.BedLength, in.BedWidth), min(in.BedLength, in.BedWidth))
		if !ok || way.up > in.Room {
			continue
		}
		if out.Ways++; !out.Fits || way.up < out.Standing {
			out.Fits, out.Upright, out.Turned, out.Standing = true, way.name, angle, way.up
		}
	}
	if slim := min(in.Length, in.Width, in.Height); out.Fits && out.Standing > tipping*slim && out.Standing > slim {
		out.Raise(tips(out.Standing, slim))
	}
	out.Raise(printing())
	return out, nil
}

// lies is the least angle at which a rectangle p by q lies in one of P by Q, the
// longer side first, from one longer side to the other.
func lies(p, q, P, Q float64) (angle float64, ok bool) {
	if p <= P && q <= Q {
		return 0, true
	}
	if q > Q || p == q || math.Pow((P+Q)/(p+q), 2)+math.Pow((P-Q)/(p-q), 2) < 2 {
		return 0, false
	}
	// p·cos a + q·sin a ≤ P, from where it is P on.
	return math.Acos(min(1, P/math.Hypot(p, q))) + math.Atan2(q, p), true
}
