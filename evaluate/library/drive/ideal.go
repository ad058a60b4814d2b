package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// merit is the static figure of merit, shaft power over what an ideal disc of
// that thrust would need.
func merit(ct, cp float64) float64 { return idealPower(0, ct) / cp }

// idealPower is the power coefficient at which no propeller of a thrust
// coefficient works with less: CT·(J + √(J² + 8·CT/π))/2 of momentum theory.
func idealPower(j, ct float64) float64 {
	ct = max(ct, 0)
	return ct * (j + math.Sqrt(j*j+8*ct/math.Pi)) / 2
}

// possible refuses a row that beats the ideal disc.
func possible(field string, r MeasuredRow) error {
	if ideal := idealPower(r.J, r.CT); r.CT > 0 && !(r.CP >= ideal) {
		return &model.Error{Field: field, Summary: "at an advance ratio of {2} a thrust coefficient of {0} cannot come of a power coefficient of {1}: the ideal disc needs {3}",
			Values: []model.Value{model.In(r.CT, "1"), model.In(r.CP, "1"), model.In(r.J, "1"), model.In(ideal, "1")},
			Hint:   "check both against T/(ρ·n²·D⁴) and P/(ρ·n³·D⁵), n in turns a second"}
	}
	return nil
}

// looks is at how many advance ratios below zero thrust the curves are held
// against the ideal disc.
const looks = 100

// real refuses coefficients whose curves beat the ideal disc anywhere below
// zero thrust, and names the one that is implausible.
func (d *Disc) real(record string, p PropellerModel) error {
	if merit(d.CT0, d.CP0) > 1 {
		return possible(require.Field(record, "CT0"), MeasuredRow{CT: d.CT0, CP: d.CP0})
	}
	least, where := 0.0, 0.0
	for i := range looks {
		x := float64(i) / looks
		at, _, _ := d.plain(x*d.J0, 0)
		if need := idealPower(x*d.J0, at.CT) / (1 - 0.57*x*x); need > least {
			least, where = need, x*d.J0
		}
	}
	if d.CP0 >= least {
		return nil
	}
	at, _, _ := d.plain(where, 0)
	values := []model.Value{model.In(where, "1"), model.In(100*where*at.CT/at.CP, "%"), model.In(100*where*at.CT/idealPower(where, at.CT), "%"), model.In(least, "1")}
	if p.ZeroThrustJ != nil && !(p.Pitch != nil && *p.ZeroThrustJ <= pitchToZero(*p.Pitch/p.Diameter)) {
		return &model.Error{Field: require.Field(record, "zero_thrust_J"), Values: values[:3],
			Summary: "the thrust ends so late that at an advance ratio of {0} the propeller would turn {1} of its power into thrust, where the ideal disc turns {2}",
			Hint:    "check it, and CT0 and CP0; from the pitch it is 0.166 + 0.901·pitch/diameter"}
	}
	return &model.Error{Field: require.Field(record, "CP0"), Values: values,
		Summary: "at an advance ratio of {0} the propeller would turn {1} of its power into thrust, where the ideal disc turns {2}: with this CT0 and pitch no CP0 below {3} is real",
		Hint:    "check CP0 against P/(ρ·n³·D⁵), CT0 against T/(ρ·n²·D⁴), and the pitch; a coarse pitch takes more power standing still"}
}

// bestMeasured is an efficiency that no measured run of a small two-blade
// propeller reaches.
const bestMeasured = 0.85

// bestEfficiency is the largest that the propeller comes to.
func (d *Disc) bestEfficiency() (best float64) {
	for i := range looks {
		j := d.first + float64(i)/looks*(d.J0-d.first)
		if at, _, _ := d.plain(j, 0); at.CT > 0 && at.CP > 0 {
			best = max(best, j*at.CT/at.CP)
		}
	}
	return best
}

// tooGood warns of curves that no propeller was measured to have.
func (d *Disc) tooGood(list *model.Cautions) {
	best := d.bestEfficiency()
	if best <= bestMeasured {
		return
	}
	list.Raise(model.Caution{ID: "propeller-too-good", Level: model.Warning,
		Summary: "The propeller would reach {0}; none measured reaches {1}.",
		Values:  []model.Value{model.In(100*best, "%"), model.In(100*bestMeasured, "%")},
		Why:     "That is its best efficiency; measured rows say more. A thrust that is not there is missed in the first climb.",
		Hint:    "Check CT0, CP0 and zero_thrust_J.",
		Source:  "two-blade propellers of 2 to 12 in, UIUC Propeller Database vols. 1 to 3"})
}
