package library

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/library/model"
)

// TestDeclarations goes over every function's tags and doc comment.
func TestDeclarations(t *testing.T) {
	for _, e := range catalogue() {
		f := e.read()
		if e.fault != nil {
			t.Errorf("%s (%s) has tags that cannot be read:\n%v", f.Name, f.Topic, e.fault)
		}
		for label, text := range map[string]string{
			"first sentence": f.Doc.Summary, "Formula": f.Doc.Formula, "Validity": f.Doc.Validity,
			"Source": f.Doc.Source, "Example": f.Doc.Example,
		} {
			if text == "" {
				t.Errorf("the doc comment of %s (%s) has no %s", f.Name, f.Topic, label)
			}
		}
		for i, p := range f.Params {
			if p.Rest && i != len(f.Params)-1 {
				t.Errorf("%s: %s takes the rest but is not the last parameter", f.Name, p.Name)
			}
		}
		checkHeadlines(t, f)
		checkOverrides(t, f)
		checkLetters(t, f)
	}
}

// checkOverrides wants an input that takes the place of another to name one that there
// is.
func checkOverrides(t *testing.T, f *Function) {
	for _, p := range f.Params {
		for _, o := range p.Overrides {
			if params := f.Params; !isPath(params, strings.Split(o.Path, ".")) {
				t.Errorf("%s: %s takes the place of %s, which it does not have", f.Name, p.Name, o.Path)
			}
		}
	}
}

func isPath(params []Param, path []string) bool {
	for _, p := range params {
		if p.Name == path[0] {
			return len(path) == 1 || isPath(p.Shape.fields(), path[1:])
		}
	}
	return false
}

// checkLetters wants each letter to stand in the formula and to be an input or a result.
func checkLetters(t *testing.T, f *Function) {
	for _, l := range f.Doc.LetterList() {
		whole := regexp.MustCompile(`(^|[^\pL\d_])` + regexp.QuoteMeta(l.Name) + `($|[^\pL\d_])`)
		if !whole.MatchString(f.Doc.Formula) {
			t.Errorf("%s: no %s stands in %q", f.Name, l.Name, f.Doc.Formula)
		}
		of := f.Params
		if l.Result {
			of = append([]Param{{Name: Whole}}, f.Result.Params...)
		}
		if !isPath(of, strings.Split(l.Path, ".")) {
			t.Errorf("%s: it has no %s for %s", f.Name, l.Path, l.Name)
		}
	}
}

// checkHeadlines wants the places 1, 2, … of a record's headline fields, each once.
func checkHeadlines(t *testing.T, f *Function) {
	t.Helper()
	var places []int
	for _, p := range f.Result.Params {
		if p.Headline > 0 {
			places = append(places, p.Headline)
		}
	}
	slices.Sort(places)
	for i, place := range places {
		if place != i+1 {
			t.Errorf("%s: the headline fields have the places %v", f.Name, places)
			return
		}
	}
}

// TestTopics wants the head of each function among those that are listed.
func TestTopics(t *testing.T) {
	for _, f := range All() {
		if !slices.Contains(topics, f.Topic) {
			t.Errorf("%s stands under %s, which is not in topics of catalogue.go", f.Name, f.Topic)
		}
	}
}

func TestLookup(t *testing.T) {
	if _, ok := Lookup("no_such_function"); ok {
		t.Error("found no_such_function")
	}
	all := All()
	if len(all) != len(Names()) || !slices.IsSorted(Names()) {
		t.Errorf("%d functions and %d names, sorted: %t", len(all), len(Names()), slices.IsSorted(Names()))
	}
	for _, f := range all {
		if got, ok := Lookup(f.Name); !ok || got != f {
			t.Errorf("Lookup(%q) = %p, %t, want %p", f.Name, got, ok, f)
		}
	}
	if last := all[len(all)-1]; last.Topic != "plain" {
		t.Errorf("the last of topics is %s, and arithmetic comes behind all physics: plain", last.Topic)
	}
}

func find(t testing.TB, list []*entry, name string) *Function {
	t.Helper()
	for _, e := range list {
		if e.name == name {
			f := e.read()
			if e.fault != nil {
				t.Fatal(e.fault)
			}
			return f
		}
	}
	t.Fatalf("no function %s", name)
	return nil
}

func TestSignature(t *testing.T) {
	f := find(t, sampleEntries, "every_shape")
	var names []string
	for _, p := range f.Params {
		names = append(names, p.Name)
	}
	want := "store ambient warm current power steps form log spare times others"
	if got := strings.Join(names, " "); got != want {
		t.Fatalf("parameters %s, want %s", got, want)
	}
	at := func(name string) Param { return f.Params[slices.Index(names, name)] }

	if p := at("ambient"); p.Default != 293.15 || p.Shown != "20 °C" || !p.Shape.Unit.Kind.Point || math.Abs(p.Range.Low-233.15) > 1e-9 {
		t.Errorf("ambient: %+v", p)
	}
	if p := at("store"); p.Shape.Kind != RecordOf || len(p.Shape.Params) != 3 || !p.Shape.Params[1].Optional ||
		p.Shape.Params[2].Default != 1.0 || p.Shape.Params[2].Shape.Kind != Integer {
		t.Errorf("store: %+v", p)
	}
	if p := at("current"); !p.Optional || p.Choose != "load" || p.Range != (Range{Text: "(0,)", HasLow: true, LowOpen: true}) {
		t.Errorf("current: %+v", p)
	}
	if p := at("form"); p.Default != "round" || !slices.Equal(p.Shape.Values, []string{"round", "square"}) {
		t.Errorf("form: %+v", p)
	}
	if p := at("warm"); p.Default != true || p.Shape.Kind != Bool {
		t.Errorf("warm: %+v", p)
	}
	if p := at("log"); p.Shape.Kind != Table || p.Shape.Params[1].Name != "U" {
		t.Errorf("log: %+v", p)
	}
	if p := at("others"); p.Shape.Kind != ListOf || p.Shape.Elem.Kind != Quantity || !p.Rest || p.Same != "n" || p.Check(-1) || p.Optional {
		t.Errorf("others: %+v", p)
	}
	if r := f.Result; r.Kind != RecordOf || len(r.Params) != 11 || r.Params[0].Headline != 1 {
		t.Errorf("result: %+v", r)
	}
	if r := find(t, sampleEntries, "one_value").Result; r.Kind != Quantity || r.Dim != "x^1/2" {
		t.Errorf("one value: %+v", r)
	}
}

// TestDoc: labels come from the function's comment, else from its package's.
func TestDoc(t *testing.T) {
	want := Doc{
		Summary: "every_shape answers with what went in.", Text: "It says so too.", Formula: "out = in",
		Validity: "anything.", Source: "none, an invented example.", Example: "s = every_shape(store)\n    more",
	}
	if got := find(t, sampleEntries, "every_shape").Doc; got != want {
		t.Errorf("got  %#v\nwant %#v", got, want)
	}
}

// pairs is a table as the language may have one.
type pairs [][2]float64

func (p pairs) Len() int                 { return len(p) }
func (p pairs) Cell(row, column int) any { return p[row][column] }

func TestCall(t *testing.T) {
	f := find(t, sampleEntries, "every_shape")
	store, spare := Record{50.0, nil, 3.0}, Record{10.0, 0.02, 1.0}
	for name, log := range map[string]any{
		"rows": pairs{{1, 10}, {2, 20}}, "records": List{Record{1.0, 10.0}, Record{2.0, 20.0}},
	} {
		out, cautions, err := f.Call(t.Context(), []any{store, 300.0, true, 1.5, nil, 4.0, "square", log, spare, List{0.1, 0.2}, nil})
		if err != nil {
			t.Fatal(err)
		}
		r := out.(Record)
		if len(r) != len(f.Result.Params) {
			t.Fatalf("%d values for %d fields", len(r), len(f.Result.Params))
		}
		inner := r[3].(Record)
		if r[0] != 50.0 || r[1] != nil || r[2] != 3.0 || inner[0] != 10.0 || inner[1] != 0.02 ||
			r[4] != "square" || r[5] != 4.0 || r[6] != true || r[7] != 1.5 || !slices.Equal(r[8].(List), List{0.1, 0.2}) {
			t.Errorf("%s: %v", name, r)
		}
		if h := r[9].(Rows); h.Len() != 2 || h.Cell(1, 0) != 2.0 || h.Cell(1, 1) != 20.0 {
			t.Errorf("%s: history %v", name, h)
		}
		if part := r[10].(Record); len(part) != 1 || part[0] != 0.0 {
			t.Errorf("%s: part %v", name, part)
		}
		if len(cautions) != 1 || cautions[0].Values[0].Number != 300 {
			t.Errorf("%s: cautions %v", name, cautions)
		}
	}
	if out, _, err := f.Call(t.Context(), []any{store, 300.0, true, nil, nil, nil, "round", nil, nil, nil, nil}); err != nil || out.(Record)[7] != nil {
		t.Errorf("with nothing that may be left out: %v, %v", out, err)
	}
}

// TestSpread: which fields a spread speaks of, and that it is what the function
// worked for these arguments.
func TestSpread(t *testing.T) {
	line, observed := find(t, sampleEntries, "line"), find(t, sampleEntries, "observed")
	if !slices.Equal(line.Estimated, []int{1, 2}) || !slices.Equal(observed.Estimated, []int{-1}) {
		t.Errorf("spreads %v and %v, want 1 and 2, -1", line.Estimated, observed.Estimated)
	}
	spread, err := line.Estimate(t.Context(), []any{List{1.0, 2.0, 3.0}, List{}})
	if err != nil || spread.DegreesOfFreedom != 3 || spread.Covariance[1][1] != 6 {
		t.Errorf("line: %+v, %v", spread, err)
	}
	out, _, _ := line.Call(t.Context(), []any{List{1.0, 2.0, 3.0}, List{}})
	if r := out.(Record); len(r) != 3 || r[0] != 0.5 || r[1] != 3.0 || r[2] != 3.0 {
		t.Errorf("line() = %v", out)
	}
	spread, err = observed.Estimate(t.Context(), []any{List{5.0, 7.0}})
	if err != nil || spread.Covariance[0][0] != 7 || !slices.Equal(spread.Readings, []float64{5, 7}) {
		t.Errorf("observed: %+v, %v", spread, err)
	}
	if _, err := line.Estimate(t.Context(), []any{List{}, List{}}); err == nil {
		t.Error("a spread where there is no answer")
	}
	if f := find(t, sampleEntries, "one_value"); f.Estimate != nil || f.Estimated != nil {
		t.Errorf("one_value has a spread of %v", f.Estimated)
	}
}

// TestSpreadFaults: a spread without fields, fields without one, and a field
// that is no quantity.
func TestSpreadFaults(t *testing.T) {
	type part struct {
		X float64 `estimated:"true"`
	}
	for name, typ := range map[string]reflect.Type{
		"no field": reflect.TypeFor[struct {
			model.Estimate
			X, Y float64
		}](),
		"no spread": reflect.TypeFor[struct{ part }](),
		"no quantity": reflect.TypeFor[struct {
			model.Estimate
			N int `estimated:"true"`
		}](),
		"no truth": reflect.TypeFor[struct {
			model.Estimate
			X float64 `spread:"yes"`
		}](),
		"a part": reflect.TypeFor[struct {
			model.Estimate
			Part part
		}](),
	} {
		if places, err := estimates(typ); err == nil {
			t.Errorf("%s: %v", name, places)
		}
	}
}

func TestCallBare(t *testing.T) {
	one := find(t, sampleEntries, "one_value")
	if out, cautions, err := one.Call(t.Context(), []any{2.0}); out != 2.0 || cautions != nil || err != nil {
		t.Errorf("one_value(2) = %v, %v, %v", out, cautions, err)
	}
	out, _, err := one.Call(t.Context(), []any{-2.0})
	var fault *model.Error
	if out != nil || !errors.As(err, &fault) || fault.Field != "x" {
		t.Errorf("one_value(-2) = %v, %v", out, err)
	}
	history, _, _ := find(t, sampleEntries, "history").Call(t.Context(), nil)
	if rows := history.(Rows); rows.Len() != 2 || rows.Cell(0, 1) != 10.0 {
		t.Errorf("history() = %v", history)
	}
	defer func() {
		if recover() == nil {
			t.Error("a column that a table has not is no bug")
		}
	}()
	history.(Rows).Cell(0, 2)
}

func TestConstants(t *testing.T) {
	// SI Brochure, 9th edition: g_n = 9.80665 m/s² exactly. pi: NIST DLMF 3.12.1.
	for name, want := range map[string]float64{"g_n": 9.80665, "pi": 3.141592653589793} {
		if got, unit, ok := Constant(name); got != want || !ok || unit.ToSI(1) != 1 {
			t.Errorf("%s = %v %v, %t", name, got, unit, ok)
		}
	}
	if _, _, ok := Constant("tau"); ok {
		t.Error("found tau")
	}
}

func BenchmarkLookup(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Lookup("interpolate")
	}
}

func BenchmarkCallPlain(b *testing.B) {
	f := find(b, catalogue(), "sqrt")
	in := []any{2.0}
	b.ReportAllocs()
	for b.Loop() {
		f.Call(b.Context(), in)
	}
}

// BenchmarkCallPhysics calls hold_up_time with arguments that it answers.
func BenchmarkCallPhysics(b *testing.B) {
	f := find(b, catalogue(), "hold_up_time")
	random := rand.New(rand.NewPCG(1, 2))
	in := plausible(f.Params, random)
	for _, _, err := f.Call(b.Context(), in); err != nil; _, _, err = f.Call(b.Context(), in) {
		in = plausible(f.Params, random)
	}
	b.ReportAllocs()
	for b.Loop() {
		f.Call(b.Context(), in)
	}
}

func BenchmarkCallRecord(b *testing.B) {
	f := find(b, sampleEntries, "every_shape")
	in := []any{Record{50.0, nil, 3.0}, 300.0, true, 1.5, nil, 4.0, "square", nil, nil, nil, nil}
	b.ReportAllocs()
	for b.Loop() {
		f.Call(b.Context(), in)
	}
}

// TestContext: a function that iterates takes the context of the run, and it is
// no parameter in the language.
func TestContext(t *testing.T) {
	f := find(t, sampleEntries, "patient")
	if len(f.Params) != 1 || f.Params[0].Name != "x" {
		t.Errorf("the parameters are %v", f.Params)
	}
	over, cancel := context.WithCancel(t.Context())
	cancel()
	if out, _, err := f.Call(t.Context(), []any{2.0}); out != 2.0 || err != nil {
		t.Errorf("patient(2) = %v, %v", out, err)
	}
	if out, _, err := f.Call(over, []any{2.0}); out != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("patient(2) under a context that is over = %v, %v", out, err)
	}
}
