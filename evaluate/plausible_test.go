package evaluate

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
)

// go test ./evaluate -run PlausibleCalls -sets 5000 -timeout 0
var sets = flag.Int("sets", 12, "how many plausible calls of each function the property test makes")

// edges are the functions whose answers step, and where.
var edges = map[string]string{
	"floor": "a whole step", "ceil": "a whole step", "round": "a whole step", "preferred_value": "the values of a series",
	"bleed_resistor": "the values of a series", "hole_and_pin": "the ranges of the standard's tables", "lithium_guess": "a cell more",
	"bed_fit": "another side upright", "field_card": "a climb that the full pack just finishes, or just not",
}

// TestPlausibleCalls calls every function with arguments near those of its example, which
// are a builder's: no panic, no answer that is no number, a refusal names an input that
// there is, and a thousandth more of an input never makes an answer jump, but at the edges.
func TestPlausibleCalls(t *testing.T) {
	for _, f := range library.All() {
		t.Run(f.Name, func(t *testing.T) {
			args := exampleCall(t, f)
			if args == nil {
				t.Fatalf("the example does not call it:\n%s", f.Doc.Example)
			}
			calls{f, rand.New(rand.NewPCG(26, uint64(len(f.Name)))), t}.try(args)
		})
	}
}

// exampleCall are the arguments with which a function's example calls it last.
func exampleCall(t *testing.T, f *library.Function) (args []any) {
	t.Helper()
	call := f.Call
	f.Call = func(ctx context.Context, in []any) (any, []model.Caution, error) {
		args = slices.Clone(in)
		return call(ctx, in)
	}
	defer func() { f.Call = call }()
	work(kit.Block("example.md", f.Doc.Example), nil)
	return args
}

// calls are those of one function.
type calls struct {
	of     *library.Function
	random *rand.Rand
	t      *testing.T
}

// longest is for how long a function is tried at most, by the set; what simulates gets
// fewer sets.
const longest = 4 * time.Millisecond

func (c calls) try(example []any) {
	answered, start := 0, time.Now()
	for n := range *sets {
		if n > 3 && time.Since(start) > time.Duration(*sets)*longest {
			break
		}
		args := example
		if n > 0 {
			args = c.near(c.of.Params, example)
		}
		out, ok := c.answer(args)
		if !ok {
			continue
		}
		answered++
		c.steady(args, out)
		if c.t.Failed() {
			c.t.Fatalf("set %d: %v", n, args)
		}
	}
	if answered == 0 {
		c.t.Error("no set is answered")
	}
}

// near are arguments somewhat off the example's.
func (c calls) near(params []library.Param, of []any) []any {
	out := slices.Clone(of)
	for i, p := range params {
		out[i] = c.nearValue(p, of[i])
	}
	return out
}

func (c calls) nearValue(p library.Param, of any) any {
	factor := math.Exp(0.1 * c.random.NormFloat64())
	switch v := of.(type) {
	case float64:
		return c.scaled(p, v, factor)
	case library.Record:
		if p.Shape.Kind == library.RecordOf {
			return library.Record(c.near(p.Shape.Params, v))
		}
	case library.List:
		list := slices.Clone(v)
		if p.Shape.Kind == library.Table {
			for i, row := range list {
				list[i] = library.Record(c.near(p.Shape.Params, row.(library.Record)))
			}
			return list
		}
		for i, x := range list {
			one := p
			one.Shape = *p.Shape.Elem
			if number, ok := x.(float64); ok { // a log keeps its shape
				list[i] = c.scaled(one, number, factor*(1+5e-4*c.random.NormFloat64()))
			}
		}
		return list
	}
	return of
}

// scaled is a quantity times a factor, where that is in its range.
func (c calls) scaled(p library.Param, v, factor float64) float64 {
	s := p.Shape
	if s.Kind != library.Quantity || s.Points {
		return v
	}
	x := v * factor
	if !s.Unit.IsZero() && s.Unit.ToSI(0) != 0 { // a temperature
		x = v + 30*(factor-1)
	}
	if r := p.Range; r.HasLow && !(x > r.Low) || r.HasHigh && !(x < r.High) {
		return v
	}
	return x
}

// answer is what a call comes to, false if it is refused.
func (c calls) answer(args []any) (answer, bool) {
	out, _, err := c.of.Call(c.t.Context(), args)
	var e *model.Error
	if errors.As(err, &e) {
		head, _, _ := strings.Cut(e.Field, ".")
		if e.Hint == "" || head != "" && !slices.ContainsFunc(c.of.Params, func(p library.Param) bool { return p.Name == head }) {
			c.t.Errorf("at %v: %v", args, err)
		}
		return answer{}, false
	}
	if err != nil {
		c.t.Errorf("at %v: %v", args, err)
		return answer{}, false
	}
	var a answer
	a.take(c.of.Result, "", out)
	for i, x := range a.numbers {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			c.t.Errorf("%s is %g at %v", a.names[i], x, args)
		}
	}
	return a, true
}

// An answer is flat: its numbers, and all that is none.
type answer struct {
	names   []string
	numbers []float64
	rest    strings.Builder
}

func (a *answer) take(s library.Shape, name string, v any) {
	switch v := v.(type) {
	case float64:
		if s.Kind == library.Integer {
			fmt.Fprint(&a.rest, " ", v)
			return
		}
		a.names, a.numbers = append(a.names, name), append(a.numbers, v)
	case library.Record:
		for i, p := range s.Params {
			a.take(p.Shape, name+"."+p.Name, v[i])
		}
	case library.List:
		for i, x := range v {
			a.take(*s.Elem, fmt.Sprintf("%s[%d]", name, i), x)
		}
		fmt.Fprint(&a.rest, " ", len(v))
	case library.Rows:
		for i := range v.Len() {
			for j, p := range s.Params {
				a.take(p.Shape, fmt.Sprintf("%s.%s[%d]", name, p.Name, i), v.Cell(i, j))
			}
		}
		fmt.Fprint(&a.rest, " ", v.Len())
	default:
		fmt.Fprint(&a.rest, " ", v)
	}
}

// steady changes one argument by a thousandth. Where an answer moves by more than a
// hundredth, the half of the change in which it moves most is halved again and again:
// what is steep gets flat by that, and what jumps does not.
func (c calls) steady(args []any, was answer) {
	path := c.leaf(c.of.Params, args)
	if path == nil || edges[c.of.Name] != "" {
		return
	}
	at := func(part float64) (answer, bool) { return c.answer(moved(args, path, 1+1e-3*part)) }
	is, ok := at(1)
	if !ok || is.rest.String() != was.rest.String() {
		return // another thing happens: an edge
	}
	for i := range was.numbers {
		whole := was.numbers[i] == math.Trunc(was.numbers[i]) && is.numbers[i] == math.Trunc(is.numbers[i]) // a count
		if !whole && !noise(was.names[i]) && apart(was, is, i) > 0.01 && c.jumps(at, i, was, is) {
			c.t.Errorf("%s jumps from %g to %g as %v grows by a thousandth", was.names[i], was.numbers[i], is.numbers[i], path)
			return
		}
	}
}

// noise reports whether a number is how readings scatter, which a fit that goes through
// all of them has only rounding of.
func noise(name string) bool {
	return strings.HasSuffix(name, "scatter") || strings.Contains(name, ".u_")
}

// apart is how far two answers differ in a number, by the larger one.
func apart(a, b answer, i int) float64 {
	x, y := a.numbers[i], b.numbers[i]
	return math.Abs(x-y) / max(math.Abs(x), math.Abs(y), 1e-9)
}

// jumps reports whether the most of a change stays within a 4096th of it.
func (c calls) jumps(at func(float64) (answer, bool), i int, low, high answer) bool {
	gap := func(a, b answer) float64 { return math.Abs(a.numbers[i] - b.numbers[i]) }
	from, to, first := 0.0, 1.0, gap(low, high)
	for range 12 {
		mid, ok := at((from + to) / 2)
		if !ok || mid.rest.String() != low.rest.String() {
			return false
		}
		if gap(low, mid) > gap(mid, high) {
			to, high = (from+to)/2, mid
		} else {
			from, low = (from+to)/2, mid
		}
	}
	return gap(low, high) > first/8
}

// leaf is the way to a quantity among the arguments; nil if there is none.
func (c calls) leaf(params []library.Param, args []any) []int {
	for _, i := range c.random.Perm(len(params)) {
		switch v := args[i].(type) {
		case float64:
			if params[i].Shape.Kind == library.Quantity && v != 0 {
				return []int{i}
			}
		case library.Record:
			if params[i].Shape.Kind != library.RecordOf {
				continue
			}
			if rest := c.leaf(params[i].Shape.Params, v); rest != nil {
				return append([]int{i}, rest...)
			}
		}
	}
	return nil
}

// moved are the arguments with one of them times a factor.
func moved(args []any, path []int, factor float64) []any {
	out := slices.Clone(args)
	switch v := out[path[0]].(type) {
	case float64:
		out[path[0]] = v * factor
	case library.Record:
		out[path[0]] = library.Record(moved(v, path[1:], factor))
	}
	return out
}
