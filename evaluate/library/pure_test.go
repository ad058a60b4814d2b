//go:build linux

package library

import (
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"

	"inkwing/evaluate/library/model"
)

// A told is what a call came to, copied so that nobody can change it any more.
type told struct{ out, cautions, err string }

// TestPure calls each function with arguments of every kind, then all of them again in
// another order: each comes to the same bits again, and leaves its arguments and what
// it gave before as they were. Whoever remembers calls relies on that.
func TestPure(t *testing.T) {
	const calls = 6
	type asked struct {
		f         *Function
		in        []any
		given     string
		out       any
		firstTold told
	}
	var all []asked
	for _, f := range All() {
		random := rand.New(rand.NewPCG(5, 6))
		for i := range calls {
			in := plausible(f.Params, random)
			if i%2 == 1 {
				in = (&oddity{Rand: random, drawn: map[string][]float64{}}).values(f.Params)
			}
			a := asked{f: f, in: in, given: copied(f, in)}
			a.out, a.firstTold = tell(f, in)
			all = append(all, a)
		}
	}
	rand.New(rand.NewPCG(7, 8)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	for _, a := range all {
		if _, again := tell(a.f, a.in); again != a.firstTold {
			t.Errorf("%s at %v: first %v, then %v", a.f.Name, a.in, a.firstTold, again)
		}
		if quiet, _, err := a.f.Call(model.Quiet(context.Background()), a.in); fmt.Sprintf("%x", bare(a.f.Result, quiet)) != a.firstTold.out || fmt.Sprintf("%+v", err) != a.firstTold.err {
			t.Errorf("%s at %v: without cautions it comes to %v, %v", a.f.Name, a.in, quiet, err)
		}
	}
	for _, a := range all {
		if copied(a.f, a.in) != a.given {
			t.Errorf("%s changes its arguments %s", a.f.Name, a.given)
		}
		if now := fmt.Sprintf("%x", bare(a.f.Result, a.out)); now != a.firstTold.out {
			t.Errorf("%s: what it gave was %s and became %s", a.f.Name, a.firstTold.out, now)
		}
	}
}

// tell calls a function and writes down what it came to, every bit of it.
func tell(f *Function, in []any) (any, told) {
	out, cautions, err := f.Call(context.Background(), in)
	return out, told{fmt.Sprintf("%x", bare(f.Result, out)), fmt.Sprintf("%+v", cautions), fmt.Sprintf("%+v", err)}
}

func copied(f *Function, in []any) string {
	list := make([]any, len(in))
	for i, v := range in {
		list[i] = bare(f.Params[i].Shape, v)
	}
	return fmt.Sprintf("%x", list)
}

// bare is a value with its tables written out.
func bare(s Shape, v any) any {
	switch x := v.(type) {
	case Record:
		out := make([]any, len(x))
		for i := range x {
			out[i] = bare(s.Params[i].Shape, x[i])
		}
		return out
	case List:
		elem := s
		if s.Elem != nil {
			elem = *s.Elem
		}
		out := make([]any, len(x))
		for i := range x {
			out[i] = bare(elem, x[i])
		}
		return out
	case Rows:
		var out []any
		for i := range x.Len() {
			for c := range s.Params {
				out = append(out, bare(s.Params[c].Shape, x.Cell(i, c)))
			}
		}
		return out
	case nil, float64, bool, string, Never:
		return x
	}
	panic(fmt.Sprintf("a value of %v", reflect.TypeOf(v)))
}
