package numeric

import (
	"context"
	"math"
	"testing"
)

// A harmonic oscillator: y = sin t, y' = cos t, so that every zero is known.
func oscillator(_ float64, y, dy []float64) { dy[0], dy[1] = y[1], -y[0] }

func height(_ float64, y []float64) float64 { return y[0] }

func TestEvents(t *testing.T) {
	for _, c := range []struct {
		name      string
		direction Direction
		want      []float64
	}{
		{"either", Either, []float64{math.Pi, 2 * math.Pi, 3 * math.Pi}},
		{"rising", Rising, []float64{2 * math.Pi}},
		{"falling", Falling, []float64{math.Pi, 3 * math.Pi}},
	} {
		o := tight
		o.Events = []Event{{Of: height, Direction: c.direction}}
		s, err := Integrate(context.Background(), oscillator, 0, []float64{0, 1}, 10, o)
		if err != nil || len(s.Hits) != len(c.want) || s.Ended || s.T != 10 {
			t.Fatalf("%s: %+v, %v", c.name, s.Hits, err)
		}
		for i, h := range s.Hits {
			if math.Abs(h.T-c.want[i]) > 1e-8 || math.Abs(h.Y[0]) > 1e-11 {
				t.Errorf("%s: %.12g, want %.12g", c.name, h.T, c.want[i])
			}
		}
	}
}

// A body thrown up lands when v²/2g says; it turns before. The terminal event
// ends the integration and what comes after it is left out.
func TestTerminal(t *testing.T) {
	const g, v = 9.80665, 12.0
	fall := func(_ float64, y, dy []float64) { dy[0], dy[1] = y[1], -g }
	o := Options{Dense: true, Events: []Event{
		{Of: height, Direction: Falling, Terminal: true},
		{Of: func(_ float64, y []float64) float64 { return y[1] }},
		{Of: func(t float64, _ []float64) float64 { return t - 2*v/g - 1e-6 }, Direction: Rising}, // just after landing
		{Of: func(t float64, _ []float64) float64 { return t - 1 }},
	}}
	s, err := Integrate(context.Background(), fall, 0, []float64{0, v}, 100, o)
	if err != nil || !s.Ended || len(s.Hits) != 3 {
		t.Fatalf("%+v, %v", s.Hits, err)
	}
	for i, want := range []Hit{{3, 1, []float64{v - g/2, v - g}}, {1, v / g, []float64{v * v / (2 * g), 0}}, {0, 2 * v / g, []float64{0, -v}}} {
		if h := s.Hits[i]; h.Event != want.Event || math.Abs(h.T-want.T) > 1e-10 || farthest(h.Y, want.Y) > 1e-9 {
			t.Errorf("%+v, want %+v", h, want)
		}
	}
	y := make([]float64, 2)
	if _, to := s.Path.Span(); to != s.T || !s.Path.At(s.T, y) || s.Path.At(s.T+1e-3, y) {
		t.Error("the path does not end at the event")
	}
	// Going on from there does not meet the landing again.
	s, err = Integrate(context.Background(), fall, s.T, s.Y, s.T+1, Options{Events: o.Events[:1]})
	if err != nil || s.Ended {
		t.Errorf("met again: %+v, %v", s.Hits, err)
	}
}

// A step much longer than an event still sees it, when it is not too short.
func TestTwoInAStep(t *testing.T) {
	o := Options{Events: []Event{{Of: func(t float64, _ []float64) float64 { return (t - 4.1) * (t - 5.9) }}}}
	s, err := Integrate(context.Background(), func(_ float64, _, dy []float64) { dy[0] = 1 }, 0, []float64{0}, 8, o)
	if err != nil || len(s.Hits) != 2 || math.Abs(s.Hits[0].T-4.1) > 1e-9 || math.Abs(s.Hits[1].T-5.9) > 1e-9 {
		t.Errorf("%+v in %d steps, %v", s.Hits, s.Accepted, err)
	}
}

func TestEventsBackward(t *testing.T) {
	o := tight
	o.Events = []Event{{Of: height, Direction: Rising}, {Of: height}}
	s, err := Integrate(context.Background(), oscillator, 10, []float64{math.Sin(10), math.Cos(10)}, 1, o)
	if err != nil || len(s.Hits) != 5 {
		t.Fatalf("%+v, %v", s.Hits, err)
	}
	for i, want := range []float64{3 * math.Pi, 3 * math.Pi, 2 * math.Pi, math.Pi, math.Pi} {
		if math.Abs(s.Hits[i].T-want) > 1e-8 {
			t.Errorf("%v, want %v", s.Hits[i].T, want)
		}
	}
}

// An event whose function jumps is located at the jump.
func TestJumpingEvent(t *testing.T) {
	o := Options{Events: []Event{{Of: func(t float64, _ []float64) float64 { return math.Copysign(1, t-math.Sqrt2) }, Terminal: true}}}
	s, err := Integrate(context.Background(), oscillator, 0, []float64{0, 1}, 10, o)
	if err != nil || !s.Ended || math.Abs(s.T-math.Sqrt2) > 1e-9 || s.T < math.Sqrt2 {
		t.Error(s.T, err)
	}
}
