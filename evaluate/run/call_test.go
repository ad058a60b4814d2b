package run

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/units"
)

// called puts a call of a made-up function in place of the right side of a line
// such as "a = 1": its arguments are constants, each at the byte of its number.
func called(t *testing.T, f *library.Function, args ...any) (*Machine, *program.Def) {
	t.Helper()
	m, p := machine(t, "a = 1")
	call := &program.Call{Typed: at(99), Func: f, Args: make([]program.Node, len(args))}
	for i, a := range args {
		if a != nil {
			call.Args[i] = &program.Const{Typed: at(i), Value: a}
		}
	}
	if len(args) == 1 {
		_, call.Each = args[0].(library.List)
	}
	p.Defs[0].Body = &program.Value{Node: call}
	m.Run()
	return m, p.Defs[0]
}

func at(byte int) program.Typed {
	volt := units.MustParse("V")
	return program.Typed{Span: message.Span{File: "notes.md", Start: byte, End: byte + 1}, Of: program.Quantity{Kind: volt.Kind}}
}

func function(call func(in []any) (any, error), params ...library.Param) *library.Function {
	return &library.Function{Name: "made_up", Params: params, Call: func(_ context.Context, in []any) (any, []model.Caution, error) {
		out, err := call(in)
		return out, nil, err
	}}
}

// TestCall hands arguments and defaults over, and works a list one by one.
func TestCall(t *testing.T) {
	sum := func(in []any) (any, error) { return in[0].(float64) + in[1].(float64), nil }
	m, d := called(t, function(sum, library.Param{Name: "x"}, library.Param{Name: "y", Default: 10.0}), 1.0, nil)
	if m.Value(d) != 11.0 {
		t.Errorf("%v, %v", m.Value(d), m.Fault(d))
	}
	twice := func(in []any) (any, error) { return 2 * in[0].(float64), nil }
	m, d = called(t, function(twice, library.Param{Name: "x"}), library.List{1.0, 2.0})
	if list, ok := m.Value(d).(library.List); !ok || list[0] != 2.0 || list[1] != 4.0 {
		t.Errorf("%v, %v", m.Value(d), m.Fault(d))
	}
}

// TestNoNumber refuses what is no number, in a record too, and takes a field that
// is missing.
func TestNoNumber(t *testing.T) {
	for _, c := range []struct {
		out any
		ok  bool
	}{
		{1.0, true}, {math.NaN(), false}, {math.Inf(1), false}, {math.Inf(-1), false}, {"text", true},
		{library.Record{1.0, nil, true}, true}, {library.Record{1.0, math.NaN()}, false},
		{library.Record{1.0, library.Record{math.Inf(1), 2.0}}, false},
	} {
		m, d := called(t, function(func([]any) (any, error) { return c.out, nil }))
		f := m.Fault(d)
		if (f == nil) != c.ok || f != nil && (f.Summary != "`made_up` comes to no number here" || f.Span.Start != 99) {
			t.Errorf("%v: %v", c.out, f)
		}
	}
}

// TestErrorAtItsArgument underlines the argument that an error of the physics
// concerns, by its field or a field of the record in it, else the call.
func TestErrorAtItsArgument(t *testing.T) {
	for _, c := range []struct {
		field, summary string
		start          int
		want           string
	}{
		{"store", "is empty", 1, "`store` is empty"},
		{"store.capacitance", "has no value", 1, "`store.capacitance` has no value"},
		{"sto", "must be above {0}", 0, "`sto`: must be above 2.7 V"},
		{"storehouse", "is unknown", 99, "`storehouse` is unknown"},
		{"", "there is no answer", 99, "there is no answer"},
	} {
		fails := func([]any) (any, error) {
			return nil, &model.Error{Field: c.field, Summary: c.summary, Values: []model.Value{model.In(2.7, "V")}, Hint: "take {0}"}
		}
		m, d := called(t, function(fails, library.Param{Name: "sto"}, library.Param{Name: "store"}), 1.0, 2.0)
		f := m.Fault(d)
		if f == nil || f.Span.Start != c.start || f.Summary != c.want || f.Hint != "take 2.7 V" {
			t.Errorf("%q: %+v", c.field, f)
		}
	}
}

// TestErrorInItsKind shows a value without a unit as one of the argument's kind.
func TestErrorInItsKind(t *testing.T) {
	fails := func([]any) (any, error) {
		return nil, &model.Error{Field: "x", Summary: "must be below {0}, not {1}", Values: []model.Value{{Number: 0.012}}}
	}
	m, d := called(t, function(fails, library.Param{Name: "x"}), 1.0)
	if f := m.Fault(d); f == nil || f.Summary != "`x`: must be below 12 mV, not ?" {
		t.Errorf("%v", f)
	}
}

// TestOtherErrors tells an error that is none of the physics, and a panic of it,
// at the call.
func TestOtherErrors(t *testing.T) {
	m, d := called(t, function(func([]any) (any, error) { return nil, errors.New("no such thing") }))
	if f := m.Fault(d); f == nil || f.Summary != "no such thing" || f.Span.Start != 99 {
		t.Errorf("%v", f)
	}
	m, d = called(t, function(func([]any) (any, error) { panic("out of range") }))
	if f := m.Fault(d); f == nil || !strings.Contains(f.Summary, "`made_up` failed in inkwing itself (out of range): the mistake is ours") {
		t.Errorf("%v", f)
	}
}

// TestRanges holds arguments to the ranges of their parameters, lists one by one.
func TestRanges(t *testing.T) {
	positive := library.Param{Name: "x", Help: "the voltage", Shape: library.Shape{Unit: units.MustParse("V")}, Range: library.Range{HasLow: true, LowOpen: true}}
	count := library.Param{Name: "n", Shape: library.Shape{Kind: library.Integer}}
	for _, c := range []struct {
		param library.Param
		arg   any
		want  string
	}{
		{positive, 1.0, ""}, {positive, 0.0, "`x` is 0 V, and must be above 0"}, {positive, -1.5, "`x` is -1.5 V, and must be above 0"},
		{positive, library.List{1.0, -2.0}, "`x` is -2 V, and must be above 0"},
		{count, 3.0, ""}, {count, -3.0, ""}, {count, 2.5, "`n` is 2.5, and wants a whole number"},
	} {
		m, d := called(t, function(func([]any) (any, error) { return 1.0, nil }, c.param), c.arg)
		f := m.Fault(d)
		if (f == nil) != (c.want == "") || f != nil && (f.Summary != c.want || f.Span.Start != 0) {
			t.Errorf("%v: %v", c.arg, f)
		}
		if f != nil && c.param.Help != "" && f.Hint != "`x` stands for: the voltage" {
			t.Errorf("hint %q", f.Hint)
		}
	}
}

// TestCautions notes which call of which definition raised a caution, once, and
// none of what is evaluated again with other values.
func TestCautions(t *testing.T) {
	raises := &library.Function{Name: "made_up", Params: []library.Param{{Name: "x"}}, Call: func(_ context.Context, in []any) (any, []model.Caution, error) {
		return in[0], []model.Caution{{ID: "hot"}}, nil
	}}
	m, p := machine(t, "x = 1", "a = x", "b = a with x = 2")
	x, a := p.Main.Names["x"], p.Main.Names["a"]
	of := a.Node()
	a.Body = &program.Value{Node: &program.Call{Typed: at(7), Func: raises, Args: []program.Node{of}}}
	m.Run()
	part := m.Subgraph([]*program.Def{x}, []int{a.ID})
	part.Evaluate([]any{3.0})
	if part.Value(a) != 3.0 || m.Value(p.Main.Names["b"]) != 2.0 {
		t.Fatalf("%v, %v", part.Value(a), m.Value(p.Main.Names["b"]))
	}
	if list := m.Raised(); len(list) != 1 || list[0].ID != "hot" || list[0].Def != a || list[0].Span.Start != 7 {
		t.Errorf("%+v", list)
	}
	if n := len(part.m.raised); n != 0 {
		t.Errorf("%d cautions piled up", n)
	}
}

// TestCallStopped: a call that ends because the run is over is told as that, not
// as a mistake of its arguments.
func TestCallStopped(t *testing.T) {
	m, p := machine(t, "a = 1")
	ctx, cancel := context.WithCancel(t.Context())
	m.ctx = ctx
	patient := &library.Function{Name: "made_up", Call: func(ctx context.Context, _ []any) (any, []model.Caution, error) {
		cancel()
		return nil, nil, ctx.Err()
	}}
	a := p.Defs[0]
	a.Body = &program.Value{Node: &program.Call{Typed: at(4), Func: patient}}
	m.Run()
	if f := m.Fault(a); f == nil || f.Summary != "this took too long and was stopped" {
		t.Errorf("%v", f)
	}
}
