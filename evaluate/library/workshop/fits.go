package workshop

import (
	"math"
	"strconv"
	"strings"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// HoleAndPinInput is a hole and a pin of one nominal size.
type HoleAndPinInput struct {
	Size      float64 `unit:"mm" range:"(0,500]" help:"nominal, of both"`
	Hole      string  `help:"class: D, E, F, G, H or JS, with the grade from 5 to 13"`
	Pin       string  `help:"class: d, e, f, g, h, js, k, m, n or p, with the grade"`
	Shrinkage float64 `unit:"mm" range:"[0,1]" default:"0 mm" help:"by which a hole comes out small: printed ones by 0.1 mm to 0.3 mm; print a gauge"`
}

// HoleAndPinResult is how they go together.
type HoleAndPinResult struct {
	Fit       string  `show:"1" help:"clearance, transition or interference"`
	Tightest  float64 `unit:"µm" show:"2" help:"clearance of the smallest hole and the largest pin; negative where it is pressed in"`
	Loosest   float64 `unit:"µm" show:"3" help:"clearance of the largest hole and the smallest pin"`
	HoleLeast float64 `unit:"mm" help:"smallest hole"`
	HoleMost  float64 `unit:"mm" help:"largest hole"`
	PinLeast  float64 `unit:"mm" help:"smallest pin"`
	PinMost   float64 `unit:"mm" help:"largest pin"`
	Draw      float64 `unit:"mm" show:"4" help:"what to draw for the hole: its middle, with shrinkage on top"`
}

// HoleAndPin is the clearance between a hole and a pin by their classes.
//
// Formula: hole from D + EI to D + EI + IT, pin from D + es − IT to D + es or from D + ei to D + ei + IT; clearance hole less pin, x_least = H_least − P_most, x_most = H_most − P_least; draw d = (H_least + H_most)/2 + s.
//
// Letters: s shrinkage; x_least = tightest; x_most = loosest; H_least = hole_least; H_most = hole_most; P_least = pin_least; P_most = pin_most; d = draw.
//
// Validity: over 0 mm to 500 mm, 20 °C; drilled, reamed and turned parts. Layered prints hold grade 12 to 14 at best (common practice): ream or fit by hand.
//
// Source: ISO 286-1 and ISO 286-2, tables from memory.
//
// Example:
//
//	axle = hole_and_pin(8 mm, hole: "H7", pin: "g6")
//	play [µm] = axle.loosest
func HoleAndPin(in HoleAndPinInput) (HoleAndPinResult, error) {
	if err := require.All(require.Positive("size", in.Size, "m"), require.NotNegative("shrinkage", in.Shrinkage, "m")); err != nil {
		return HoleAndPinResult{}, err
	}
	row, ok := rowOf(in.Size)
	if !ok {
		return HoleAndPinResult{}, &model.Error{Field: "size", Summary: "is {0}, past the 500 mm of these tables", Values: []model.Value{model.In(in.Size*1e3, "mm")}, Hint: "give a nominal size up to 500 mm"}
	}
	hole, err := limits("hole", in.Hole, row)
	if err != nil {
		return HoleAndPinResult{}, err
	}
	pin, err := limits("pin", in.Pin, row)
	if err != nil {
		return HoleAndPinResult{}, err
	}
	out := HoleAndPinResult{Tightest: hole.low - pin.high, Loosest: hole.high - pin.low,
		HoleLeast: in.Size + hole.low, HoleMost: in.Size + hole.high, PinLeast: in.Size + pin.low, PinMost: in.Size + pin.high}
	out.Draw = in.Size + (hole.low+hole.high)/2 + in.Shrinkage
	switch {
	case out.Tightest >= 0:
		out.Fit = "clearance"
	case out.Loosest <= 0:
		out.Fit = "interference"
	default:
		out.Fit = "transition"
	}
	return out, nil
}

// A zone is the deviations of a class, in metres.
type zone struct{ low, high float64 }

// limits are those of a class at a row of the tables.
func limits(field, class string, row int) (zone, error) {
	letters := strings.TrimRight(class, "0123456789")
	grade, err := strconv.Atoi(class[len(letters):])
	if err != nil || grade < leastGrade || grade >= leastGrade+len(grades) {
		return zone{}, noClass(field, class)
	}
	width := grades[grade-leastGrade][row]
	shaft, isHole := strings.ToLower(letters), letters == strings.ToUpper(letters)
	if isHole != (field == "hole") {
		return zone{}, noClass(field, class)
	}
	at, known := start(shaft, isHole, grade, row)
	switch {
	case !known:
		return zone{}, noClass(field, class)
	case shaft == "js":
		return zone{-width / 2 * micron, width / 2 * micron}, nil
	case isHole:
		return zone{-at * micron, (width - at) * micron}, nil
	case strings.Contains(overSize, shaft):
		return zone{at * micron, (at + width) * micron}, nil
	}
	return zone{(at - width) * micron, at * micron}, nil
}

// start is the fundamental deviation of a shaft's letter, which a hole of the same
// letter has mirrored, in micrometres.
func start(letter string, hole bool, grade, row int) (float64, bool) {
	switch {
	case letter == "h" || letter == "js":
		return 0, true
	case letter == "k" && grade > 7 && !hole:
		return 0, true
	}
	at, known := deviations[letter]
	above := strings.Contains(overSize, letter)
	if !above {
		return -at[row], known
	}
	return at[row], known && !hole
}

func noClass(field, class string) error {
	e := &model.Error{Field: field, Summary: "is no class of these tables: {0}", Hint: "write a hole as in H7: D, E, F, G, H or JS, and the grade from 5 to 13"}
	e.Summary = "“" + class + "” is no class of these tables"
	if field == "pin" {
		e.Hint = "write a pin as in g6: d, e, f, g, h, js, k, m, n or p, and the grade from 5 to 13"
	}
	return e
}

const (
	micron   = 1e-6
	overSize = "kmnp" // letters of pins that begin above the nominal size
)

// rowOf is the row of a nominal size.
func rowOf(size float64) (int, bool) {
	for i, up := range sizes {
		if size <= up*1e-3*(1+1e-9) {
			return i, true
		}
	}
	return 0, math.IsNaN(size)
}
