package energy

import (
	"math/rand/v2"
	"slices"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

const splitSource = "V_i = V (1/C_i)/Σ(1/C_j), textbook"

func TestCellVoltages(t *testing.T) {
	for _, c := range []struct {
		voltage     float64
		rows        []float64
		want        []float64
		capacitance float64
	}{
		{5, []float64{8, 12}, []float64{3, 2}, 4.8},
		{8.1, []float64{8, 12, 12}, []float64{3.47142857, 2.31428571, 2.31428571}, 24. / 7},
		{1, []float64{10, 12, 8}, nil, 3.24324324},
	} {
		got := kit.Must(CellVoltages(CellVoltagesInput{Voltage: c.voltage, Capacitance: c.rows}))(t)
		kit.Near(t, "series, 1/C = Σ 1/C_i, textbook", got.Capacitance, c.capacitance, kit.Exact)
		for i, want := range c.want {
			kit.Near(t, splitSource, got.Voltage[i], want, kit.Exact)
		}
		kit.Near(t, "highest", got.Highest, slices.Max(got.Voltage), 0)
		kit.Near(t, "lowest", got.Lowest, slices.Min(got.Voltage), 0)
	}
	_, err := CellVoltages(CellVoltagesInput{Voltage: 1})
	kit.Refuses(t, err, "capacitance")
	_, err = CellVoltages(CellVoltagesInput{Voltage: 1, Capacitance: []float64{1, 0}})
	kit.Refuses(t, err, "capacitance")
}

func TestWorstCellVoltage(t *testing.T) {
	for _, c := range []struct {
		series                   int
		tolerance, voltage, want float64
	}{
		{2, 0.2, 5, 3},
		{3, 0.2, 8.1, 3.47142857},
		{4, 0, 10, 2.5},
		{1, 0.2, 2.5, 2.5},
	} {
		store := Store{Capacitance: 1, RatedVoltage: 20, Series: c.series, Tolerance: c.tolerance}
		got := kit.Must(WorstCellVoltage(WorstCellVoltageInput{Store: store, Voltage: c.voltage}))(t)
		kit.Near(t, "V (1+d)/((n−1)(1−d)+(1+d)), from "+splitSource, got.Voltage, c.want, kit.Exact)
	}
}

// No string whose cells lie within the tolerance splits worse: all corners, by
// the sum over the rows.
func TestWorstCellOfAllStrings(t *testing.T) {
	const d = 0.15
	for n := 2; n <= 6; n++ {
		worst := 0.0
		for corner := range 1 << n {
			rows := make([]float64, n)
			for i := range rows {
				rows[i] = 10 * (1 - d)
				if corner>>i&1 == 1 {
					rows[i] = 10 * (1 + d)
				}
			}
			worst = max(worst, kit.Must(CellVoltages(CellVoltagesInput{Voltage: 10, Capacitance: rows}))(t).Highest)
		}
		store := Store{Capacitance: 1, RatedVoltage: 20, Series: n, Tolerance: d}
		kit.Near(t, "all corners", store.WorstCell(10), worst, 1e-12)
		kit.Near(t, "the worst cell at the safe voltage", store.WorstCell(store.safeVoltage()), 20/float64(n), 1e-12)
	}
}

func TestMatchedCells(t *testing.T) {
	// The split above turned about: rated at what the low cell sees.
	got := kit.Must(MatchedCells(MatchedCellsInput{Capacitance: []float64{12, 8, 12}, Voltage: []float64{0, 0, 0}, RatedVoltage: 3.47142857}))(t)
	kit.Near(t, splitSource, got.SafeVoltage, 8.1, kit.Exact)
	kit.Near(t, splitSource, got.Lowest, 2.31428571, kit.Exact)
	if got.LimitingCell != 2 {
		t.Errorf("cell %d limits, want 2", got.LimitingCell)
	}
}

// Charged in small portions until the first cell is full.
func TestMatchedCellsByPortions(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		in := MatchedCellsInput{RatedVoltage: 2.7}
		for range 2 + r.IntN(5) {
			in.Capacitance = append(in.Capacitance, 90+20*r.Float64())
			in.Voltage = append(in.Voltage, 0.5*r.Float64())
		}
		got := kit.Must(MatchedCells(in))(t)
		v := slices.Clone(in.Voltage)
		const portion = 0.001
		for slices.Max(v) < in.RatedVoltage {
			for i := range v {
				v[i] += portion / in.Capacitance[i]
			}
		}
		for i := range v {
			kit.Near(t, "portions", got.CellVoltage[i], v[i], 1e-4)
		}
		kit.Near(t, "full", v[got.LimitingCell-1], in.RatedVoltage, 1e-4)
		if slices.Max(got.CellVoltage) > in.RatedVoltage*(1+1e-12) {
			t.Errorf("a cell above its rating: %v", got.CellVoltage)
		}
	}
}

func TestMatchedCellsRefuses(t *testing.T) {
	_, err := MatchedCells(MatchedCellsInput{Capacitance: []float64{10}, Voltage: []float64{3}, RatedVoltage: 2.7})
	kit.Refuses(t, err, "voltage")
	_, err = MatchedCells(MatchedCellsInput{Capacitance: []float64{10}, RatedVoltage: 2.7})
	kit.Refuses(t, err, "voltage")
	_, err = MatchedCells(MatchedCellsInput{RatedVoltage: 2.7})
	kit.Refuses(t, err, "capacitance")
}
