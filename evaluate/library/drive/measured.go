package drive

import (
	"cmp"
	"math"
	"slices"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// A MeasuredRow is one row of a propeller's measured table.
type MeasuredRow struct {
	J     float64  `unit:"1" name:"J" help:"advance ratio V/(n·D)"`
	CT    float64  `unit:"1" name:"CT" help:"thrust coefficient T/(ρ·n²·D⁴)"`
	CP    float64  `unit:"1" name:"CP" help:"power coefficient P/(ρ·n³·D⁵)"`
	Speed *float64 `unit:"rpm" range:"(0,)" help:"of the run; rows of one run name one speed"`
}

// PropellerRowInput is what [PropellerRow] wants.
type PropellerRowInput struct{ MeasuredRow }

// PropellerRowResult is what [PropellerRow] answers.
type PropellerRowResult struct{ MeasuredRow }

// PropellerRow is one measured point of a propeller, where no table of them is at hand.
//
// Formula: J = V/(n·D), CT = T/(ρ·n²·D⁴), CP = P/(ρ·n³·D⁵), n in turns a second.
//
// Letters: J J; CT CT; CP CP.
//
// Validity: at the speed it was measured at.
//
// Source: R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151, equations 2 to 8.
//
// Example:
//
//	prop = propeller(diameter: 254 mm, data: [propeller_row(0, 0.1237, 0.0500), propeller_row(0.487, 0.0425, 0.0334)])
func PropellerRow(in PropellerRowInput) (PropellerRowResult, error) {
	bounds := []error{require.NotNegative("J", in.J, "1")}
	if in.Speed != nil {
		bounds = append(bounds, require.Positive("speed", *in.Speed, "rad/s"))
	}
	return PropellerRowResult(in), require.All(bounds...)
}

// measured puts the rows in order, a run for each speed, and checks them.
func (d *Disc) measured(record string, rows []MeasuredRow, solidity float64) error {
	field := require.Field(record, "data")
	runs, err := runsOf(field, rows)
	if err != nil {
		return err
	}
	d.runs, d.Rows = runs, runs[0].rows
	d.first, d.last = 0, math.Inf(1)
	for _, r := range runs {
		d.first, d.last = max(d.first, r.rows[0].J), min(d.last, r.rows[len(r.rows)-1].J)
	}
	if !(d.first < d.last) {
		return &model.Error{Field: field, Summary: "the runs share no advance ratios: {0} to {1}",
			Values: []model.Value{model.In(d.first, "1"), model.In(d.last, "1")}, Hint: "give runs that reach over the same advance ratios, each with two rows or more"}
	}
	d.J0 = d.zeroThrust()
	d.hold(solidity)
	return nil
}

// runsOf sorts the rows into runs of one speed.
func runsOf(field string, rows []MeasuredRow) (runs []run, err error) {
	sorted := slices.SortedStableFunc(slices.Values(rows), func(a, b MeasuredRow) int {
		return cmp.Or(cmp.Compare(a.turns(), b.turns()), cmp.Compare(a.J, b.J))
	})
	for _, r := range sorted {
		if len(runs) == 0 || runs[len(runs)-1].turns != r.turns() {
			runs = append(runs, run{turns: r.turns()})
		}
		last := &runs[len(runs)-1]
		last.rows = append(last.rows, r)
	}
	for _, r := range runs {
		if r.turns == 0 && len(runs) > 1 {
			return nil, &model.Error{Field: field, Summary: "some rows name their speed and some do not", Hint: "give the speed of each row, or of none"}
		}
		if err := r.check(field); err != nil {
			return nil, err
		}
	}
	return runs, nil
}

func (r MeasuredRow) turns() float64 {
	if r.Speed == nil {
		return 0
	}
	return *r.Speed / (2 * math.Pi)
}

// check refuses a run that cannot be interpolated, or beats the ideal disc.
func (r run) check(field string) error {
	for i, at := range r.rows {
		if !(at.J >= 0) || math.IsNaN(at.CT) || math.IsNaN(at.CP) || i > 0 && at.J == r.rows[i-1].J {
			return &model.Error{Field: field, Summary: "the advance ratio {0} is negative, missing or there twice",
				Values: []model.Value{model.In(at.J, "1")}, Hint: "keep one row for each J of a run; runs at several speeds name their speed"}
		}
		if err := possible(field, at); err != nil {
			return err
		}
	}
	if len(r.rows) < 2 {
		return &model.Error{Field: field, Summary: "one row cannot be interpolated", Hint: "give two rows or more of each run"}
	}
	return nil
}

// zeroThrust is the advance ratio at which the slowest run passes zero thrust,
// or its last.
func (d *Disc) zeroThrust() float64 {
	for i, b := range d.Rows {
		if b.CT > 0 || i == 0 {
			continue
		}
		a := d.Rows[i-1]
		return a.J + (b.J-a.J)*a.CT/(a.CT-b.CT)
	}
	return d.last
}

// outside says that the advance ratio lies past the measured rows.
func (d *Disc) outside(record string, j float64) error {
	return &model.Error{Field: require.Field(record, "data"), Summary: "the advance ratio {0} lies outside the measured rows, {1} to {2}",
		Values: []model.Value{model.In(j, "1"), model.In(d.first, "1"), model.In(d.last, "1")},
		Hint:   "add rows that reach it (J = 0 standing still); nothing is extrapolated"}
}

// Unbalanced says that no measured row is where motor and propeller agree.
func (d *Disc) Unbalanced(record string) error {
	return &model.Error{Field: require.Field(record, "data"), Summary: "motor and propeller agree at an advance ratio outside the measured rows, {0} to {1}",
		Values: []model.Value{model.In(d.first, "1"), model.In(d.last, "1")},
		Hint:   "add rows beyond them, or choose an airspeed that fits; nothing is extrapolated"}
}
