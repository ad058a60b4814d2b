package library

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"inkwing/units"
)

// readDefault reads the value for what is not given, in SI.
func (p *Param) readDefault(tag fieldTag) error {
	written, has := tag.Lookup("default")
	if !has {
		return nil
	}
	p.Shown = written
	value, err := p.Shape.parse(written)
	if err != nil {
		return fmt.Errorf("default %q: %w", written, err)
	}
	p.Default = value
	if p.Optional {
		return fmt.Errorf("default %q: a pointer or a choice has none", written)
	}
	if si, ok := value.(float64); ok && !p.Check(si) {
		return fmt.Errorf("default %q: it %s", written, p.Wants())
	}
	return nil
}

// parse reads a default of the shape.
func (s Shape) parse(written string) (any, error) {
	switch s.Kind {
	case Quantity:
		return s.parseQuantity(written)
	case Integer:
		n, err := strconv.Atoi(written)
		return float64(n), err
	case Bool:
		return strconv.ParseBool(written)
	case Text:
		if s.Values != nil && !slices.Contains(s.Values, written) {
			return nil, errors.New("it is none of the values")
		}
		return written, nil
	}
	return nil, errors.New("only a number, truth or text has one")
}

// parseQuantity reads a number and its unit, "20 °C" or "90°". The unit may be
// left out where the field's own is meant.
func (s Shape) parseQuantity(written string) (any, error) {
	cut := numberEnd(written)
	x, err := strconv.ParseFloat(written[:cut], 64)
	if err != nil {
		return nil, err
	}
	name := strings.TrimSpace(written[cut:])
	if s.Dim != "" && name != "" {
		return nil, errors.New("of any dimension it is a pure number")
	}
	if s.Dim != "" {
		return x, nil
	}
	unit := s.Unit
	if name != "" {
		if unit, err = units.Parse(name); err != nil {
			return nil, err
		}
	}
	if unit.Kind.Dim != s.Unit.Kind.Dim || unit.Kind.Point != s.Unit.Kind.Point {
		return nil, fmt.Errorf("it is %s where %s is wanted", unit.Kind, s.Unit.Kind)
	}
	return unit.ToSI(x), nil
}

// numberEnd is where the number at the beginning ends. An e is its exponent's
// only if a digit or sign follows.
func numberEnd(text string) int {
	for i := range len(text) {
		c := text[i]
		digit := '0' <= c && c <= '9' || strings.IndexByte("+-._", c) >= 0
		exponent := c == 'e' && i+1 < len(text) && strings.IndexByte("+-0123456789", text[i+1]) >= 0
		if !digit && !exponent {
			return i
		}
	}
	return len(text)
}

// readRange reads an interval such as [0,) or (0, 1], in the field's unit.
func (p *Param) readRange(tag fieldTag) error {
	written, has := tag.Lookup("range")
	if !has {
		return nil
	}
	shape := p.Shape
	if shape.Kind == ListOf {
		shape = *shape.Elem
	}
	r, err := parseRange(written, func(x float64) float64 {
		if shape.Dim != "" {
			return x
		}
		return shape.Unit.ToSI(x)
	})
	if err == nil && shape.Kind != Quantity && shape.Kind != Integer {
		err = errors.New("only a number has one")
	}
	if err != nil {
		return fmt.Errorf("range %q: %w", written, err)
	}
	p.Range = r
	return nil
}

func parseRange(written string, toSI func(float64) float64) (Range, error) {
	form := errors.New("write an interval such as [0,) or (0,1]")
	text := strings.TrimSpace(written)
	if len(text) < 3 || !strings.ContainsAny(text[:1], "[(") || !strings.ContainsAny(text[len(text)-1:], "])") {
		return Range{}, form
	}
	low, high, ok := strings.Cut(text[1:len(text)-1], ",")
	r := Range{Text: written}
	var lowFault, highFault error
	r.Low, r.HasLow, lowFault = bound(low, toSI)
	r.High, r.HasHigh, highFault = bound(high, toSI)
	r.LowOpen, r.HighOpen = r.HasLow && text[0] == '(', r.HasHigh && text[len(text)-1] == ')'
	switch {
	case !ok || lowFault != nil || highFault != nil:
		return Range{}, form
	case !r.HasLow && !r.HasHigh:
		return Range{}, errors.New("it bounds nothing")
	case r.HasLow && r.HasHigh && r.Low >= r.High:
		return Range{}, errors.New("it holds nothing")
	}
	return r, nil
}

// bound reads one end; an empty one, or an infinite one, bounds nothing.
func bound(text string, toSI func(float64) float64) (si float64, has bool, err error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, false, nil
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) {
		return 0, false, err
	}
	return toSI(x), true, nil
}
