package attribute

import (
	"maps"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/present"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/working"
)

func editionOf(t *testing.T, s *sheet.Sheet, files sheet.Loader) edition {
	w := working.Check(t.Context(), working.NewSource(s, files))
	w.Evaluate(t.Context(), w.Shown())
	return edition{w}
}

// TestMixtures wants the mixture of nothing new to be the old sheet, and that of
// all new the sheet as it is.
func TestMixtures(t *testing.T) {
	random := map[string]string{"cell": `cells["B60"]`, "n_series": "n_more + 1\nn_more = 4", "V_full": "11", "dry": "false", "name": `"second"`, "taps": "[3 g, 4 g]", "strap": "5 g"}
	for drop := range kit.AsWritten {
		values := maps.Clone(random)
		values[drop] = kit.AsWritten[drop]
		a, filesA := kit.Bench(kit.AsWritten)
		b, filesB := kit.Bench(values)
		x := &tracer{ctx: t.Context(), old: editionOf(t, a, filesA), now: editionOf(t, b, filesB)}
		x.find()
		if len(x.elements) == 0 {
			t.Fatal("nothing differs")
		}
		for want, isNew := range map[*report.Report]bool{present.Report(x.old.w): false, present.Report(x.now.w): true} {
			got := x.mixed(func(int) bool { return isNew })
			for _, q := range want.Quantities {
				n, isNumber := q.Value.(float64)
				if x, ok := got[q.Name]; ok != isNumber || x != n {
					t.Errorf("without %s: %s is %v, want %v", drop, q.Name, got[q.Name], q.Value)
				}
			}
		}
	}
}

func TestPercents(t *testing.T) {
	for _, c := range []struct {
		parts []float64
		want  string
	}{
		{[]float64{1. / 3, 1. / 3, 1. / 3}, "34 % 33 % 33 %"}, {[]float64{1}, "100 %"}, {[]float64{0.996, 0.004}, "100 % under 1 %"},
		{[]float64{0.5049, 0.4951}, "50 % 50 %"},
	} {
		var list []report.Share
		for _, p := range c.parts {
			list = append(list, report.Share{Part: p})
		}
		percents(list)
		var got []string
		for _, s := range list {
			got = append(got, s.Shown)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v: %v, want %s", c.parts, got, c.want)
		}
	}
}
