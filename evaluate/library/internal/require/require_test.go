package require

import (
	"errors"
	"math"
	"testing"

	"inkwing/evaluate/library/model"
)

func TestBounds(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		require      func(float64) error
		kept, broken []float64
	}{
		"positive":     {func(v float64) error { return Positive("x", v, "V") }, []float64{1e-300, 3}, []float64{0, -1, nan, inf}},
		"not negative": {func(v float64) error { return NotNegative("x", v, "V") }, []float64{0, 3}, []float64{-1e-300, nan, inf}},
		"share":        {func(v float64) error { return Share("x", v) }, []float64{0, 0.999}, []float64{-0.01, 1, nan}},
		"efficiency":   {func(v float64) error { return Efficiency("x", v) }, []float64{0.001, 1}, []float64{0, 1.001, nan}},
		"count":        {func(v float64) error { return Count("x", int(v)) }, []float64{1, 7}, []float64{0, -1}},
	} {
		for _, v := range c.kept {
			if err := c.require(v); err != nil {
				t.Errorf("%s: %v is refused: %v", name, v, err)
			}
		}
		for _, v := range c.broken {
			var e *model.Error
			if !errors.As(c.require(v), &e) || e.Field != "x" || len(e.Values) != 1 || e.Summary == "" || e.Hint == "" {
				t.Errorf("%s: %v gives %+v", name, v, e)
			}
		}
	}
}

func TestInNamesTheFirstField(t *testing.T) {
	var e *model.Error
	err := In("store", nil, Positive("resistance", -1, "Ω"), Positive("mass", -1, "kg"))
	if !errors.As(err, &e) || e.Field != "store.resistance" {
		t.Errorf("%v, want one about store.resistance", err)
	}
	if err := In("store", nil, nil); err != nil {
		t.Errorf("nothing is wrong, and it says %v", err)
	}
	if err := In("", Positive("mass", -1, "kg")); !errors.As(err, &e) || e.Field != "mass" {
		t.Errorf("%v, want one about mass", err)
	}
	if own := NotFalling("from", 1, 2); !errors.As(own, &e) || e.Values[0].Number != 1 || e.Values[1].Number != 2 {
		t.Errorf("%v, want a start of 1 V and an end of 2 V", own)
	}
}
