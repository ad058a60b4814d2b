package run

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
)

// madeUp is a made-up function with one parameter of a shape, and how often it worked.
func madeUp(shape library.Shape, call func(in []any) (any, error)) (*library.Function, *int) {
	n := new(int)
	return &library.Function{Name: "made_up", Topic: "energy", Params: []library.Param{{Name: "x", Shape: shape}},
		Call: func(_ context.Context, in []any) (any, []model.Caution, error) {
			*n++
			out, err := call(in)
			return out, []model.Caution{{ID: "once"}}, err
		}}, n
}

// rows is a table of two columns.
type rows [][2]any

func (r rows) Len() int          { return len(r) }
func (r rows) Cell(i, c int) any { return r[i][c] }

// TestMemoKeys asks for the same function with values that are alike to a careless
// eye: each is worked once, and none is taken for another.
func TestMemoKeys(t *testing.T) {
	quantity := library.Param{Shape: library.Shape{Kind: library.Quantity}}
	two := library.Shape{Kind: library.Table, Params: []library.Param{quantity, quantity}}
	list := library.Shape{Kind: library.ListOf, Elem: &library.Shape{Kind: library.Quantity}}
	record := library.Shape{Kind: library.RecordOf, Params: []library.Param{quantity, quantity, quantity}}
	text := library.Shape{Kind: library.Text}
	long := make(library.List, 1000)
	for i := range long {
		long[i] = float64(i)
	}
	other := append(library.List{}, long...)
	other[999] = math.Nextafter(999, 0)
	for _, c := range []struct {
		shape  library.Shape
		values []any
	}{
		{quantity.Shape, []any{nil, 0.0, math.Copysign(0, -1), 1.0, math.Nextafter(1, 2), math.NaN(), math.Inf(1), library.Never{}}},
		{library.Shape{Kind: library.Bool}, []any{nil, true, false}},
		{text, []any{"", "a", "ab", "f\x00", "0", nil}},
		{list, []any{library.List{}, library.List{1.0}, library.List{1.0, 2.0}, library.List{2.0, 1.0}, library.List{nil, 1.0}, long, other}},
		{record, []any{library.Record{1.0, nil, 2.0}, library.Record{1.0, 2.0, nil}, library.Record{nil, 1.0, 2.0}, library.Record{1.0, 2.0}}},
		{two, []any{rows{}, rows{{1.0, 2.0}}, rows{{1.0, 2.0}, {3.0, 4.0}}, rows{{1.0, 3.0}, {2.0, 4.0}}, rows{{1.0, nil}, {3.0, 4.0}}}},
		{library.Shape{Kind: library.ListOf, Elem: &text}, []any{library.List{"a", "bc"}, library.List{"ab", "c"}, library.List{"abc"}}},
	} {
		m := NewMemo()
		f, n := madeUp(c.shape, func(in []any) (any, error) { return fmt.Sprint(in[0]), nil })
		for range 3 {
			for i, v := range c.values {
				out, cautions, err := m.call(t.Context(), f, []any{v}, nil)
				if out != fmt.Sprint(v) || len(cautions) != 1 || err != nil {
					t.Errorf("%v (%d) comes to %v, %v, %v", v, i, out, cautions, err)
				}
			}
		}
		if *n != len(c.values) {
			t.Errorf("%v: worked %d times", c.values, *n)
		}
	}
}

// TestMemoErrors remembers an error of the physics, and not that of a run that was
// told to stop, nor a panic.
func TestMemoErrors(t *testing.T) {
	m := NewMemo()
	f, n := madeUp(library.Shape{}, func([]any) (any, error) { return nil, errors.New("too heavy") })
	for range 2 {
		if _, _, err := m.call(t.Context(), f, []any{1.0}, nil); err == nil || err.Error() != "too heavy" {
			t.Error(err)
		}
	}
	if *n != 1 {
		t.Errorf("worked %d times", *n)
	}
	stopped, stop := context.WithCancel(t.Context())
	stop()
	f, n = madeUp(library.Shape{}, func([]any) (any, error) { return nil, context.Canceled })
	m.call(stopped, f, []any{1.0}, nil)
	m.call(t.Context(), f, []any{1.0}, nil)
	if *n != 2 {
		t.Errorf("a run that was told to stop is remembered")
	}
}

// TestMemoForgets fills a memo many times over: what is asked for again and again
// stays, what is not goes, and it holds no more than two generations.
func TestMemoForgets(t *testing.T) {
	m := NewMemo()
	f, n := madeUp(library.Shape{Kind: library.ListOf, Elem: &library.Shape{Kind: library.Quantity}}, func(in []any) (any, error) {
		return in[0].(library.List)[0], nil
	})
	big := func(x float64) library.List {
		list := make(library.List, 100)
		for i := range list {
			list[i] = x
		}
		return list
	}
	const many = 50_000
	for i := range many {
		m.call(t.Context(), f, []any{big(float64(i))}, nil)
		m.call(t.Context(), f, []any{big(-1)}, nil)
	}
	if *n != many+1 {
		t.Errorf("worked %d times: what is asked for again and again is forgotten", *n)
	}
	if held := len(m.young.calls) + len(m.old.calls); held > 2*generation/900 {
		t.Errorf("holds %d", held)
	}
	m.call(t.Context(), f, []any{big(0)}, nil)
	if *n != many+2 {
		t.Error("the first of many is still there")
	}
}

// TestMemoParts keeps parts of answers that calls have in common, and forgets those that are
// not asked for.
func TestMemoParts(t *testing.T) {
	m := NewMemo()
	f, _ := madeUp(library.Shape{}, nil)
	f.Iterates = true
	type part struct{ n int }
	worked := map[int]int{}
	f.Call = func(ctx context.Context, in []any) (any, []model.Caution, error) {
		n := int(in[0].(float64)) / 2
		return model.Once(ctx, part{n}, 1000, func() int { worked[n]++; return n }), nil, nil
	}
	const many = 50_000
	for i := range 2 * many {
		if out, _, _ := m.call(t.Context(), f, []any{float64(i)}, nil); out != i/2 {
			t.Fatalf("part of %d is %v", i, out)
		}
	}
	for n, times := range worked {
		if times != 1 {
			t.Errorf("%d was worked %d times", n, times)
		}
	}
	if held := len(m.young.parts) + len(m.old.parts); len(worked) != many || held > 2*generation/1200 {
		t.Errorf("%d worked, %d held", len(worked), held)
	}
}

// TestMemoQuiet asks without cautions first, then with: the first answer does not do
// for the second, and the second does for all that follow.
func TestMemoQuiet(t *testing.T) {
	m := NewMemo()
	f, n := madeUp(library.Shape{}, func([]any) (any, error) { return 1.0, nil })
	for i, c := range []struct {
		ctx    context.Context
		worked int
	}{{model.Quiet(t.Context()), 1}, {model.Quiet(t.Context()), 1}, {t.Context(), 2}, {model.Quiet(t.Context()), 2}, {t.Context(), 2}} {
		if m.call(c.ctx, f, []any{1.0}, nil); *n != c.worked {
			t.Errorf("%d: worked %d times, want %d", i, *n, c.worked)
		}
	}
}
