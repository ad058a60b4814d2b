package page

import (
	"math"
	"reflect"
	"testing"

	"inkwing/evaluate/report"
)

// TestKeys wants a key of its own for each of some inputs of one type that are alike.
func TestKeys(t *testing.T) {
	series := func(s ...report.Series) any { return report.Panel{Series: s} }
	for _, list := range [][]any{
		{[]string(nil), []string{}, []string{""}, []string{"", ""}, []string{"ab", "c"}, []string{"a", "bc"}, []string{"abc"}},
		{[][]string{{"a"}, {"b"}}, [][]string{{"a", "b"}}, [][]string{{"a", "b"}, {}}, [][]string{{"a"}, {"b"}, nil}},
		{0.0, math.Copysign(0, -1), 1.0, math.Nextafter(1, 2), math.NaN(), math.Inf(1)},
		{report.Column{Number: true}, report.Column{Code: true}, report.Column{Detail: true}, report.Column{Head: "a"}, report.Column{SIUnit: "a"}},
		{series(report.Series{X: []float64{1}}), series(report.Series{Y: []float64{1}}), series(report.Series{U: []float64{1}}), series(report.Series{}, report.Series{})},
		{report.Waiting, report.Failed, report.Evaluated},
	} {
		keys := map[string]any{}
		for _, in := range list {
			key := string(appendKey(nil, reflect.ValueOf(in)))
			if other, ok := keys[key]; ok {
				t.Errorf("%#v and %#v are remembered as one", in, other)
			}
			keys[key] = in
		}
	}
}

// TestKeyTypes wants a key for all that an input may ever hold, whatever it holds on the pages at
// hand: an element of a list that is empty there would else be come to by a builder first.
func TestKeyTypes(t *testing.T) {
	var see func(path string, x reflect.Type)
	see = func(path string, x reflect.Type) {
		if path == "tableInput.table.Values" {
			return // taken out before, since they are not shown
		}
		switch x.Kind() {
		case reflect.Struct:
			for i := range x.NumField() {
				see(path+"."+x.Field(i).Name, x.Field(i).Type)
			}
		case reflect.Slice:
			see(path+"[]", x.Elem())
		default:
			defer func() {
				if recover() != nil {
					t.Errorf("%s is a %s, for which there is no key", path, x)
				}
			}()
			appendKey(nil, reflect.Zero(x))
		}
	}
	for _, in := range []any{chartInput{}, tableInput{}} {
		see(reflect.TypeOf(in).Name(), reflect.TypeOf(in))
	}
}

// TestForget keeps what one of the last two pages asked for, and nothing else.
func TestForget(t *testing.T) {
	m := NewMemory()
	made := 0
	again := func(in int) int { made++; return in }
	for i, c := range []struct {
		asks []int
		made int // of them
		kept int
	}{{[]int{1, 2}, 2, 2}, {[]int{1}, 0, 2}, {[]int{1, 2, 3}, 1, 3}, {[]int{1, 3}, 0, 3}, {[]int{1, 3}, 0, 2}, {[]int{2}, 1, 3}, {nil, 0, 1}, {nil, 0, 0}} {
		made = 0
		for _, in := range c.asks {
			if out := remembered(m, "a number", in, again); out != in {
				t.Errorf("page %d: %d for %d", i, out, in)
			}
		}
		if m.forget(); made != c.made || len(m.parts) != c.kept {
			t.Errorf("page %d: made %d, kept %d; want %d and %d", i, made, len(m.parts), c.made, c.kept)
		}
	}
}
