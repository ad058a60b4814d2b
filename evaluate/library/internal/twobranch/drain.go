package twobranch

import (
	"context"
	"errors"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/numeric"
)

// A Drained is a store that a load has taken down to a voltage.
type Drained struct {
	Time   float64 // s
	Slow   float64 // V, of the slow branch at the end
	Square float64 // A²·s, of the load's current
	Lost   float64 // J, between the branches
}

// After many time constants of settling the slow branch follows the fast one as
// closely as it ever will. What was between them at the start has died away after a
// few tens; that their lag also follows the current, within a millionth, takes more.
const (
	diedAway   = 60
	sideBySide = 3000
	mostSteps  = 6000 // of which a common drain takes some hundred
)

// Drain follows both branches while a load takes a current that the fast one's
// voltage sets, until that voltage is end. At first the two are stepped; from when
// they fall together on, the lag is what the current keeps up,
// I·Through·Slow/(C + Slow), and the rest is a quadrature over the voltage.
func (l Law) Drain(ctx context.Context, v, slow, end float64, takes func(v float64) float64) (Drained, error) {
	if math.IsInf(takes(end), 0) { // a constant power at no voltage; what is left there is a hundred-millionth
		end = 1e-4 * v
	}
	if v <= end {
		return Drained{Slow: slow}, nil
	}
	until := sideBySide * max(l.Time(max(v, slow)), l.Time(0))
	s, err := numeric.Integrate(ctx, func(_ float64, y, dy []float64) {
		v := max(y[0], end/2) // a stage of a step may leap
		out, into := takes(v), l.Into(v, y[1])
		dy[0], dy[1], dy[2], dy[3] = -(out+into)/l.At(v), into/l.Slow, out*out, into*into*l.Through
	}, 0, []float64{v, slow, 0, 0}, until, numeric.Options{Relative: 1e-10, Absolute: 1e-10, Steps: mostSteps, Events: []numeric.Event{{
		Of: func(_ float64, y []float64) float64 { return y[0] - end }, Direction: numeric.Falling, Terminal: true}}})
	if err != nil {
		return Drained{}, err
	}
	out := Drained{Time: s.T, Slow: s.Y[1], Square: s.Y[2], Lost: s.Y[3]}
	if s.Ended || out.Time == 0 {
		return out, nil
	}
	return l.together(out, s.Y[0], end, takes)
}

// errForever is of a load that takes nothing.
var errForever = errors.New("it takes for ever")

// together goes on where both branches fall side by side.
func (l Law) together(out Drained, v, end float64, takes func(v float64) float64) (Drained, error) {
	lag := func(v float64) float64 { return -takes(v) * l.Through * l.Slow / (l.At(v) + l.Slow) }
	step := 1e-4 * (v - end)
	perVolt := func(v float64) float64 { // the charge of both
		return l.At(v) + l.Slow*(1-(lag(v+step)-lag(v-step))/(2*step))
	}
	sum := func(of func(v, dt float64) float64) float64 {
		return quad.Fixed(func(v float64) float64 { return of(v, perVolt(v)/takes(v)) }, end, v, 48, nil, 0)
	}
	if !(takes(end) > 0 && takes(v) > 0) {
		return out, errForever
	}
	out.Time += sum(func(_, dt float64) float64 { return dt })
	out.Square += sum(func(v, dt float64) float64 { return takes(v) * takes(v) * dt })
	out.Lost += sum(func(v, dt float64) float64 { return lag(v) * lag(v) / l.Through * dt })
	out.Slow = end - lag(end)
	if math.IsNaN(out.Time) || math.IsInf(out.Time, 0) {
		return out, errForever
	}
	return out, nil
}

// Rest is where both branches stand after a time without a load.
func (l Law) Rest(ctx context.Context, v, slow, time float64) (fast, late float64, err error) {
	all := l.Charge(0, v) + l.Slow*slow
	// Of the fast branch where the slow one is so far below it.
	under := func(lag float64) float64 { return l.Settled(0, (all+l.Slow*lag)/l.Slow) }
	until := diedAway * max(l.Time(max(v, slow)), l.Time(0))
	s, err := numeric.Integrate(ctx, func(_ float64, y, dy []float64) {
		dy[0] = -y[0] / l.Time(under(y[0]))
	}, 0, []float64{v - slow}, min(time, until), numeric.Options{Relative: 1e-11, Absolute: 1e-12})
	if err != nil {
		return 0, 0, err
	}
	fast = under(s.Y[0])
	return fast, fast - s.Y[0], nil
}
