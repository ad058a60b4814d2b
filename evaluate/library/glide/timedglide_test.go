package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// The independent route: exact glides of a known airframe give it back.
func TestDragFromGlides(t *testing.T) {
	p := glider()
	in := DragFromGlidesInput{Mass: p.Mass, Area: p.Area, Span: &p.Span, Density: p.Density}
	for _, cl := range []float64{0.2, 0.35, 0.5, 0.8, 1.05} {
		g := p.Trim(cl, 1)
		in.Speed, in.Height, in.Time = append(in.Speed, g.Speed), append(in.Height, 10), append(in.Time, 10/g.Sink)
	}
	got := kit.Must(DragFromGlides(in))(t)
	kit.Near(t, "CD0", got.CD0, p.CD0, 1e-12)
	kit.Near(t, "induced factor", got.Induced, p.Induced(), 1e-12)
	kit.Near(t, "span efficiency", *got.Oswald, p.Oswald, 1e-12)
	if got.Freedom != 3 || got.Scatter > 1e-14 {
		t.Errorf("exact glides scatter by %g at %d degrees of freedom", got.Scatter, got.Freedom)
	}
	in.Time[0] *= 1.02
	got = kit.Must(DragFromGlides(in))(t)
	kit.Near(t, "u(CD0)²", got.Covariance[0][0], got.UCD0*got.UCD0, 1e-12)
	kit.Near(t, "u(k)²", got.Covariance[1][1], got.UInduced*got.UInduced, 1e-12)
	// e is 1/k times a constant: its relative uncertainty is k's, the other way.
	kit.Near(t, "u(e)", *got.UOswald, *got.Oswald*got.UInduced/got.Induced, 1e-12)
	kit.Near(t, "covariance of k and e", got.Covariance[1][2], -got.UInduced**got.UOswald, 1e-12)
	kit.Near(t, "covariance of CD0 and e", got.Covariance[0][2], -got.Covariance[0][1]**got.Oswald/got.Induced, 1e-12)
	in.Time[0] *= 3
	if got = kit.Must(DragFromGlides(in))(t); !kit.Raised(got.List, "drag-not-resolved") && got.CD0 <= 0 {
		t.Errorf("CD0 %g goes uncautioned", got.CD0)
	}
}

// The calibration curve of a thermometer: y1 −0.1712 °C, u 0.0029 °C; y2
// 0.00218, u 0.00067; s 0.0035 °C (JCGM 100:2008, table H.6 and H.3.3).
func TestLinePublished(t *testing.T) {
	read := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	ys := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	xs := make([]float64, len(read))
	for i, r := range read {
		xs[i] = r - 20
	}
	got := kit.Must(DragFromGlidesInput{}.throughLine(xs, ys))(t)
	for what, pair := range map[string][3]float64{"intercept": {got.CD0, -0.1712, 0.00005}, "its uncertainty": {got.UCD0, 0.0029, 0.00005},
		"slope": {got.Induced, 0.00218, 0.000005}, "its uncertainty ": {got.UInduced, 0.00067, 0.000005}, "scatter": {got.Scatter, 0.0035, 0.00005}} {
		if !(math.Abs(pair[0]-pair[1]) <= pair[2]) {
			t.Errorf("%s = %g, published %g", what, pair[0], pair[1])
		}
	}
}

func TestDragFromGlidesRefuses(t *testing.T) {
	three := func(x float64) []float64 { return []float64{x, x + 1, x + 2} }
	good := DragFromGlidesInput{Speed: three(7), Height: three(10), Time: three(15), Mass: 0.39, Area: 0.165, Density: 1.225}
	for _, row := range []struct {
		field string
		spoil func(*DragFromGlidesInput)
	}{
		{"speed", func(in *DragFromGlidesInput) { in.Speed = in.Speed[:2] }},
		{"speed", func(in *DragFromGlidesInput) { in.Speed = []float64{7, 7, 7} }},
		{"speed", func(in *DragFromGlidesInput) { in.Speed = []float64{7, -7, 7} }},
		{"height", func(in *DragFromGlidesInput) { in.Height = three(1000) }},
		{"time", func(in *DragFromGlidesInput) { in.Time = three(-1) }},
		{"mass", func(in *DragFromGlidesInput) { in.Mass = 0 }},
		{"span", func(in *DragFromGlidesInput) { in.Span = new(0.0) }},
	} {
		in := good
		row.spoil(&in)
		_, err := DragFromGlides(in)
		kit.Refuses(t, err, row.field)
	}
}
