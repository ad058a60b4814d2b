package energy

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// Two like capacitors of 16.7 F, one at 16 V and one empty, lose half of what the
// charged one held, C·V²/4 = 1069 J; of 1 F at 1.9 V and at nought it is 0.9 J, which
// nobody sees.
func TestJoiningSpark(t *testing.T) {
	spark := kit.Must(JoinedCapacitors(JoinedCapacitorsInput{FirstCapacitance: 16.7, FirstVoltage: 16, SecondCapacitance: 16.7}))(t)
	if math.Abs(spark.Lost-1068.8) > 0.1 || !kit.Raised(spark.List, "joining-spark") {
		t.Errorf("%+v", spark)
	}
	calm := kit.Must(JoinedCapacitors(JoinedCapacitorsInput{FirstCapacitance: 1, FirstVoltage: 1.9, SecondCapacitance: 1}))(t)
	if kit.Raised(calm.List, "joining-spark") {
		t.Errorf("%+v", calm)
	}
}

// By Kirchhoff: six cells at 15 V with 10 kΩ each, of which one leaks 400 µA, settle
// five at 2.5 V + 10 kΩ·66.7 µA = 3.167 V and the leaky one at 3.167 V − 4 V.
func TestReversedAtRest(t *testing.T) {
	leaky := []float64{0, 0, 0, 0, 0, 400e-6}
	got := kit.Must(BalancedVoltages(BalancedVoltagesInput{Voltage: 15, Resistance: 10e3, Leakage: leaky}))(t)
	if math.Abs(got.Voltage[0]-3.1667) > 1e-4 || math.Abs(got.Voltage[5]+0.8333) > 1e-4 || !kit.Raised(got.List, "cell-reversed-at-rest") {
		t.Errorf("%+v", got)
	}
	got = kit.Must(BalancedVoltages(BalancedVoltagesInput{Voltage: 15, Resistance: 1e3, Leakage: leaky}))(t)
	if kit.Raised(got.List, "cell-reversed-at-rest") {
		t.Errorf("%+v", got)
	}
}

// The answer is the very rating of one cell, so that a margin is always advised.
func TestMarginForTheMeter(t *testing.T) {
	got := kit.Must(MatchedCells(MatchedCellsInput{Capacitance: []float64{100, 110}, Voltage: []float64{0, 0}, RatedVoltage: 2.7}))(t)
	if !kit.Raised(got.List, "no-margin-for-the-meter") {
		t.Errorf("%+v", got)
	}
}
