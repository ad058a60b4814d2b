package library

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"inkwing/evaluate/library/model"
)

// TestEveryFunction calls each function with arguments of every kind that its
// signature allows: it answers with what its signature says, or with an error
// that concerns one of its parameters, and never panics.
func TestEveryFunction(t *testing.T) {
	const calls = 20
	for _, f := range All() {
		random := rand.New(rand.NewPCG(1, 2))
		for range calls {
			if fault := tryOut(f, random); fault != nil {
				t.Errorf("%s: %v", f.Name, fault)
				break
			}
		}
	}
}

// FuzzEveryFunction does so with other arguments.
func FuzzEveryFunction(f *testing.F) {
	f.Add(uint16(0), uint64(1))
	all := All()
	f.Fuzz(func(t *testing.T, function uint16, seed uint64) {
		one := all[int(function)%len(all)]
		if fault := tryOut(one, rand.New(rand.NewPCG(seed, 0))); fault != nil {
			t.Errorf("%s: %v", one.Name, fault)
		}
	})
}

// tryOut calls a function once and says what is wrong with its answer.
func tryOut(f *Function, random *rand.Rand) (fault error) {
	in := plausible(f.Params, random)
	defer func() {
		if p := recover(); p != nil {
			fault = fmt.Errorf("it panics at %v: %v", in, p)
		}
	}()
	out, cautions, err := f.Call(context.Background(), in)
	if err != nil {
		return goodError(f, err)
	}
	for _, c := range cautions {
		if c.ID == "" || c.Summary == "" {
			return fmt.Errorf("a caution without ID or text: %+v", c)
		}
	}
	if err := fits(f.Result, out); err != nil {
		return fmt.Errorf("at %v: %w", in, err)
	}
	if f.Estimate == nil {
		return nil
	}
	spread, err := f.Estimate(context.Background(), in)
	if err != nil {
		return err
	}
	return goodSpread(spread, len(f.Estimated))
}

// goodSpread wants a covariance of n values and a degree of freedom.
func goodSpread(s model.Estimate, n int) error {
	if s.Covariance == nil {
		return nil
	}
	if len(s.Covariance) != n || s.DegreesOfFreedom < 1 {
		return fmt.Errorf("the spread of %d values is %+v", n, s)
	}
	for i, row := range s.Covariance {
		if len(row) != n {
			return fmt.Errorf("the covariance of %d values is %v", n, s.Covariance)
		}
		for j, c := range row {
			bound := math.Sqrt(s.Covariance[i][i] * s.Covariance[j][j])
			if !(math.Abs(c) <= bound*(1+1e-9)) || c != s.Covariance[j][i] {
				return fmt.Errorf("no covariance: %v", s.Covariance)
			}
		}
	}
	return nil
}

// goodError wants an error of the model that names a parameter, if any.
func goodError(f *Function, err error) error {
	var e *model.Error
	if !errors.As(err, &e) {
		return fmt.Errorf("the error %q is no model.Error", err)
	}
	if !isFragment(e.Summary) || e.Hint == "" || !isFragment(e.Hint) {
		return fmt.Errorf("the error %q and its hint %q: write both without a capital and without a stop", err, e.Hint)
	}
	name, _, _ := strings.Cut(e.Field, ".")
	for _, p := range f.Params {
		if p.Name == name {
			return nil
		}
	}
	if e.Field == "" {
		return nil
	}
	return fmt.Errorf("the error %q names %s, which is no parameter", err, e.Field)
}

// isFragment reports whether a text begins without a capital, unless that is of
// a name, and ends without a stop.
func isFragment(text string) bool {
	first, _, _ := strings.Cut(text, " ")
	return !strings.HasSuffix(text, ".") && (strings.ToLower(first) == first || strings.ToUpper(first) == first)
}

// plausible makes up arguments: one of each group of choices, every second of
// what may be left out.
func plausible(params []Param, random *rand.Rand) []any {
	chosen := map[string]int{}
	for i, p := range params {
		if _, ok := chosen[p.Choose]; p.Choose != "" && (!ok || random.IntN(2) == 0) {
			chosen[p.Choose] = i
		}
	}
	in := make([]any, len(params))
	for i, p := range params {
		switch {
		case p.Choose != "" && chosen[p.Choose] != i:
		case p.Choose == "" && p.Optional && random.IntN(2) == 0:
		case p.Default != nil && random.IntN(2) == 0:
			in[i] = p.Default
		default:
			in[i] = plausibleValue(p, random)
		}
	}
	return in
}

func plausibleValue(p Param, random *rand.Rand) any {
	switch s := p.Shape; s.Kind {
	case Integer:
		return math.Ceil(inRange(p, random))
	case Bool:
		return random.IntN(2) == 0
	case Text:
		if len(s.Values) == 0 {
			return "text"
		}
		return s.Values[random.IntN(len(s.Values))]
	case ListOf:
		one := p
		one.Shape = *s.Elem
		list := make(List, 3)
		for i := range list {
			list[i] = plausibleValue(one, random)
		}
		return list
	case RecordOf:
		return Record(plausible(s.Params, random))
	case Table:
		return List{Record(plausible(s.Params, random)), Record(plausible(s.Params, random)), Record(plausible(s.Params, random))}
	}
	return inRange(p, random)
}

// inRange is a number of the size of the parameter's unit, within its range.
func inRange(p Param, random *rand.Rand) float64 {
	r := p.Range
	part := 0.01 + 0.98*random.Float64()
	if r.HasLow && r.HasHigh {
		return r.Low + part*(r.High-r.Low)
	}
	size := 1.0
	if !p.Shape.Unit.IsZero() {
		size = p.Shape.Unit.Difference().ToSI(1)
	}
	size *= math.Exp(6*part - 2)
	switch {
	case r.HasLow:
		return r.Low + size
	case r.HasHigh:
		return r.High - size
	}
	return size
}

// fits says how a value differs from its shape.
func fits(s Shape, v any) error {
	ok := true
	switch s.Kind {
	case Quantity, Integer:
		_, ok = v.(float64)
	case Bool:
		_, ok = v.(bool)
	case Text:
		_, ok = v.(string)
	case ListOf:
		list, isList := v.(List)
		for _, x := range list {
			if err := fits(*s.Elem, x); err != nil {
				return err
			}
		}
		ok = isList
	case RecordOf:
		record, isRecord := v.(Record)
		if !isRecord {
			return fmt.Errorf("%T where a record is promised", v)
		}
		return fitFields(s.Params, len(record), func(i int) any { return record[i] })
	case Table:
		rows, isRows := v.(Rows)
		if !isRows {
			return fmt.Errorf("%T where a table is promised", v)
		}
		if rows.Len() > 0 {
			return fitFields(s.Params, len(s.Params), func(i int) any { return rows.Cell(rows.Len()-1, i) })
		}
	}
	if !ok {
		return fmt.Errorf("%T does not fit the promised kind %d", v, s.Kind)
	}
	return nil
}

func fitFields(params []Param, have int, value func(int) any) error {
	if have != len(params) {
		return fmt.Errorf("%d values for %d fields", have, len(params))
	}
	for i, p := range params {
		v := value(i)
		if _, never := v.(Never); p.Optional && (v == nil || never) {
			continue
		}
		if err := fits(p.Shape, v); err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
	}
	return nil
}
