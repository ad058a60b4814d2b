package library

import (
	"math"
	"reflect"
	"strings"
	"testing"
)

// TestMalformedTags proves that each mistake in a tag has a clear text.
func TestMalformedTags(t *testing.T) {
	number, list := reflect.TypeFor[float64](), reflect.TypeFor[[]float64]()
	for _, c := range []struct {
		typ       reflect.Type
		tag, want string
	}{
		{number, `unit:"furlongs"`, `unit "furlongs": `},
		{number, `unit:"V" dim:"x"`, "it has both a unit and a dim"},
		{number, `dim:"z"`, `dim "z": write powers of x and y`},
		{number, `points:"kept"`, `points:"kept" belongs to a field with dim`},
		{number, `unit:"V" rnage:"[0,)"`, "nothing reads the tag rnage"},
		{number, `unit:"V`, "is not key"},
		{number, `range:"0,1"`, "write an interval such as [0,) or (0,1]"},
		{number, `range:"[a,1]"`, "write an interval"},
		{number, `range:"[1]"`, "write an interval"},
		{number, `range:"(,)"`, "it bounds nothing"},
		{number, `range:"[2,1]"`, "it holds nothing"},
		{number, `unit:"V" default:"3 A"`, "where a voltage (V) is wanted"},
		{number, `unit:"V" default:"three"`, `default "three": `},
		{number, `unit:"V" default:"-1 V" range:"[0,)"`, "it must be at least 0"},
		{number, `dim:"x" default:"1 V"`, "of any dimension it is a pure number"},
		{number, `show:"6"`, "write a place from 1 to 5"},
		{number, `rest:"true"`, "belongs to a list"},
		{list, `rest:"yes"`, "belongs to a list"},
		{list, `default:"1"`, "only a number, truth or text has one"},
		{number, `same:"n"`, "belongs to a list"},
		{reflect.TypeFor[*float64](), `unit:"V" default:"1 V"`, "a pointer or a choice has none"},
		{reflect.TypeFor[string](), `values:"round"`, "name two or more"},
		{reflect.TypeFor[string](), `values:"round square" default:"oval"`, "it is none of the values"},
		{reflect.TypeFor[bool](), `range:"[0,1]"`, "only a number has one"},
		{reflect.TypeFor[chan int](), ``, "the language has no value for the Go type chan int"},
	} {
		_, err := param(reflect.StructField{Name: "X", Type: c.typ, Tag: reflect.StructTag(c.tag)})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v `%s`: %v, want %q", c.typ, c.tag, err, c.want)
		}
	}
	if _, err := fields(reflect.TypeFor[struct {
		A, X float64 `name:"a"`
	}]()); err == nil {
		t.Error("two fields of one name are no fault")
	}
}

func read(t *testing.T, typ reflect.Type, tag string) Param {
	t.Helper()
	p, err := param(reflect.StructField{Name: "X", Type: typ, Tag: reflect.StructTag(tag)})
	if err != nil {
		t.Fatalf("`%s`: %v", tag, err)
	}
	return p
}

func TestDefault(t *testing.T) {
	for tag, want := range map[string]float64{
		// Conversions: SI Brochure, 9th edition, 2.3.1 and table 8.
		`unit:"°C" default:"20 °C"`: 293.15, `unit:"K" default:"5 K"`: 5, `unit:"V" default:"1e3 mV"`: 1,
		`unit:"°" default:"90°"`: math.Pi / 2, `default:"0.5"`: 0.5, `unit:"%" default:"7 %"`: 0.07,
		`unit:"mm" default:"3"`: 0.003, `dim:"x" default:"1"`: 1, `unit:"m/s" default:"-2 m/s"`: -2,
	} {
		got, _ := read(t, reflect.TypeFor[float64](), tag).Default.(float64)
		if math.Abs(got-want) > 1e-15*math.Abs(want) {
			t.Errorf("`%s`: %v, want %v", tag, got, want)
		}
	}
}

func TestRange(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		tag, wants string
		good, bad  []float64
	}{
		{``, "", []float64{0, -1, inf}, []float64{nan}},
		{`range:"(0,)"`, "must be above 0", []float64{1e-300, inf}, []float64{0, -1, nan}},
		{`unit:"V" range:"[0,)"`, "must be at least 0", []float64{0, 1}, []float64{-1e-9}},
		{`unit:"V" range:"[1,5)"`, "must be at least 1 V and below 5 V", []float64{1, 4.9}, []float64{0.9, 5}},
		{`unit:"mm" range:"(,2]"`, "must be at most 2 mm", []float64{0.002, -1}, []float64{0.0021}},
		{`unit:"°C" range:"[0, 60]"`, "must be at least 0 °C and at most 60 °C", []float64{273.15, 333.15}, []float64{273, 334}},
		{`unit:"%" range:"[0,100]"`, "must be at least 0 and at most 100 %", []float64{1}, []float64{1.1}},
		{`dim:"x" range:"(0,inf)"`, "must be above 0", []float64{2}, []float64{0}},
	} {
		p := read(t, reflect.TypeFor[float64](), c.tag)
		if got := p.Wants(); got != c.wants {
			t.Errorf("`%s`: %q, want %q", c.tag, got, c.wants)
		}
		for _, v := range c.good {
			if !p.Check(v) {
				t.Errorf("`%s` refuses %v", c.tag, v)
			}
		}
		for _, v := range c.bad {
			if p.Check(v) {
				t.Errorf("`%s` lets %v pass", c.tag, v)
			}
		}
	}
}
