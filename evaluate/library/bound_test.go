//go:build linux

package library

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// An oddity makes up arguments as nobody would choose them: at the edges of ranges,
// tiny, huge, nothing, and one quantity equal to another of its kind.
type oddity struct {
	*rand.Rand
	drawn map[string][]float64 // so far, by unit
}

func (o *oddity) value(p Param) any {
	switch s := p.Shape; s.Kind {
	case ListOf:
		one := p
		one.Shape = *s.Elem
		list := make(List, o.IntN(40))
		for i := range list {
			list[i] = o.value(one)
		}
		return list
	case Table:
		rows := make(List, o.IntN(30))
		for i := range rows {
			rows[i] = Record(plausible(s.Params, o.Rand))
		}
		return rows
	case Integer:
		return math.Round(o.number(p))
	case Quantity:
		return o.number(p)
	}
	return plausibleValue(p, o.Rand)
}

func (o *oddity) values(params []Param) []any {
	in := plausible(params, o.Rand)
	for i := range in {
		if in[i] != nil && o.IntN(3) > 0 {
			in[i] = o.value(params[i])
		}
	}
	return in
}

func (o *oddity) number(p Param) float64 {
	unit := p.Shape.Unit.String()
	v := o.fresh(p)
	if same := o.drawn[unit]; len(same) > 0 && o.IntN(4) == 0 {
		v = same[o.IntN(len(same))]
	}
	r := p.Range
	if r.HasLow {
		v = max(v, r.Low)
	}
	if r.HasHigh {
		v = min(v, r.High)
	}
	o.drawn[unit] = append(o.drawn[unit], v)
	return v
}

func (o *oddity) fresh(p Param) float64 {
	v := inRange(p, o.Rand)
	switch o.IntN(8) {
	case 0:
		return 0
	case 1:
		return v * math.Exp(-25*o.Float64())
	case 2:
		return v * math.Exp(12*o.Float64())
	case 3:
		return -v
	case 4:
		if p.Range.HasLow {
			return math.Nextafter(p.Range.Low, math.Inf(1))
		}
	case 5:
		if p.Range.HasHigh {
			return p.Range.High
		}
	}
	return v
}

// most is what one call may take, in time that its thread works, and tries is how often
// one that takes more is called: the least counts, since other programs slow a thread down
// by what they take of the caches and of its processor's other half. A call is given up
// after enough.
const (
	most   = 10 * time.Millisecond
	tries  = 6
	enough = 4 * time.Second
)

// go test ./evaluate/library -run BoundedWork -calls 5000
var callsOfEach = flag.Int("calls", 120, "how many calls of each function TestBoundedWork makes")

// TestBoundedWork calls each function with plausible and with odd arguments: none
// panics, and none takes more than ten milliseconds.
func TestBoundedWork(t *testing.T) {
	for _, f := range All() {
		random := rand.New(rand.NewPCG(3, 4))
		worst := time.Duration(0)
		for i := range *callsOfEach {
			o := &oddity{Rand: random, drawn: map[string][]float64{}}
			in := plausible(f.Params, random)
			if i%2 == 1 {
				in = o.values(f.Params)
			}
			took, fault := leastTimed(t.Context(), f, in)
			if fault != nil || took > most {
				t.Errorf("%s: %v, %v at %v", f.Name, took, fault, in)
				break
			}
			worst = max(worst, took)
		}
		if worst > most/5 {
			t.Logf("%s: at most %v", f.Name, worst)
		}
	}
}

// leastTimed is timed, again and again as long as that takes too much.
func leastTimed(ctx context.Context, f *Function, in []any) (least time.Duration, fault error) {
	least = time.Hour
	for range tries {
		took, fault := timed(ctx, f, in)
		if least = min(least, took); fault != nil || least <= most {
			return least, fault
		}
	}
	return least, nil
}

// timed calls a function and gives the time that its thread works. One that does not
// come back is left alone, and told.
func timed(ctx context.Context, f *Function, in []any) (took time.Duration, fault error) {
	ctx, cancel := context.WithTimeout(ctx, enough)
	defer cancel()
	done := make(chan error, 1)
	go func() {
		runtime.LockOSThread()
		defer func() {
			if r := recover(); r != nil {
				done <- fmt.Errorf("it panics: %v", r)
			}
		}()
		start := thread()
		_, _, err := f.Call(ctx, in)
		took = thread() - start
		if errors.Is(err, context.DeadlineExceeded) {
			done <- err
		}
		done <- nil
	}()
	select {
	case fault = <-done:
		return took, fault
	case <-time.After(2 * enough):
		return 0, errors.New("it does not come back")
	}
}

// thread is the time that this thread has worked.
func thread() time.Duration {
	var ts unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_THREAD_CPUTIME_ID, &ts); err != nil {
		panic(err)
	}
	return time.Duration(ts.Nano())
}
