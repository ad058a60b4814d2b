package generator

import (
	"errors"
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

func TestDistributionFactor(t *testing.T) {
	const source = "phasor sum, evenly spaced coils, 12 poles"
	for coils, want := range map[int]float64{3: 1, 4: 1, 6: 1, 12: 1, 8: 0.7071, 9: 0.6667, 5: 0.6472, 10: 0.6472} {
		d, err := DistributionFactor(DistributionFactorInput{Coils: coils, Poles: 12, Phases: 1})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, source, d.Factor, want, 1e-4)
		if (want < 0.9) != (len(d.List) > 0) {
			t.Errorf("%d coils: %v", coils, d.List)
		}
	}
	d, _ := DistributionFactor(DistributionFactorInput{Coils: 9, Poles: 12, Phases: 3})
	kit.Near(t, source+", three phases", d.Factor, 1, 1e-12)
	// Deshpande, Electrical Machines, example 13.3: 18 slots, 2 poles, q = 3.
	d, _ = DistributionFactor(DistributionFactorInput{Coils: 18, Poles: 2, Phases: 3})
	kit.Near(t, "Deshpande 13.3", d.Factor, 0.9597951, 1e-7)
	// Poles that alternate turn every second coil over; twice as many turn none.
	for poles, want := range map[int]int{12: 6, 24: 0} {
		if d, _ := DistributionFactor(DistributionFactorInput{Coils: 12, Poles: poles, Phases: 1}); d.Reversed != want {
			t.Errorf("12 coils over %d poles: %d turned over, want %d", poles, d.Reversed, want)
		}
	}
	eight, _ := DistributionFactor(DistributionFactorInput{Coils: 8, Poles: 12, Phases: 1})
	if mend := eight.List[0].Hint; !strings.Contains(mend, " 6 ") || !strings.Contains(mend, "12") {
		t.Errorf("mend %q", mend)
	}
	_, err := DistributionFactor(DistributionFactorInput{Coils: 12, Poles: 12, Phases: 3})
	var m *model.Error
	if !errors.As(err, &m) || m.Field != "coils" || !strings.Contains(m.Hint, "9") {
		t.Errorf("12 coils over 12 poles are one phase: %v", err)
	}
}

func TestWindingFactorPublished(t *testing.T) {
	const source = "Skaar, Krovel, Nilssen, ICEM 2006; Cros and Viarouge 2002"
	for _, c := range []struct {
		slots, poles int
		want         float64
	}{
		{9, 6, 0.8660254}, {9, 8, 0.9452136}, {9, 12, 0.8660254}, {12, 10, 0.9330127}, {12, 14, 0.9330127},
		{6, 8, 0.8660254}, {15, 14, 0.9514364}, {24, 22, 0.9494693}, {18, 14, 0.9019124}, {12, 16, 0.8660254},
	} {
		w, err := WindingFactor(WindingFactorInput{Slots: c.slots, Poles: c.poles})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, source, w.Factor, c.want, 1e-7)
	}
}

// TestBestSigns holds the choice of signs against trying all of them.
func TestBestSigns(t *testing.T) {
	for coils := 1; coils <= 10; coils++ {
		for pairs := 1; pairs <= 7; pairs++ {
			best := 0.0
			for bits := range 1 << coils {
				var x, y float64
				for i := range coils {
					s := float64(1 - 2*(bits>>i&1))
					a := 2 * math.Pi * float64(i*pairs) / float64(coils)
					x, y = x+s*math.Cos(a), y+s*math.Sin(a)
				}
				best = max(best, math.Hypot(x, y)/float64(coils))
			}
			a, _ := tryArrange(coils, pairs, 1)
			kit.Near(t, "best of all signs", a.factor, best, 1e-9)
		}
	}
}

// TestThreePhases lets the sectors begin before each coil in turn and sums the
// phasors one by one.
func TestThreePhases(t *testing.T) {
	for coils := 3; coils <= 60; coils++ {
		for pairs := 1; pairs <= 20; pairs++ {
			best := 0.0
			for origin := range coils {
				best = max(best, threePhases(coils, pairs, float64(origin*pairs)/float64(coils)-1e-9))
			}
			a, ok := tryArrange(coils, pairs, 3)
			kit.Near(t, "best of all origins", a.factor+1, best+1, 1e-9)
			if ok != (best > 0) {
				t.Errorf("%d coils, %d pole pairs: %v", coils, pairs, ok)
			}
			if ok { // the arrangement is one that has this factor
				kit.Near(t, "as arranged", arranged(a, coils, pairs), best, 1e-9)
			}
		}
	}
}

// threePhases is the factor with sectors from an origin, in turns.
func threePhases(coils, pairs int, origin float64) float64 {
	var sum [6]complex128
	var count [3]int
	for i := range coils {
		turn := float64(i*pairs) / float64(coils)
		s := int(6*(turn-origin-math.Floor(turn-origin))) % 6
		sum[s] += cmplx.Rect(1, 2*math.Pi*turn)
		count[s%3]++
	}
	a, b, c := sum[0]-sum[3], sum[2]-sum[5], sum[4]-sum[1]
	third := cmplx.Rect(1, 2*math.Pi/3)
	if count[0] != count[1] || count[1] != count[2] || cmplx.Abs(a*third-b) > 1e-6 || cmplx.Abs(b*third-c) > 1e-6 {
		return 0
	}
	return cmplx.Abs(a) / float64(count[0])
}

// arranged is the factor of the first phase as it is arranged.
func arranged(a arrangement, coils, pairs int) float64 {
	sum, n := 0i, 0.0
	for i, phase := range a.phase {
		if phase == 0 {
			sum += complex(float64(a.sign[i]), 0) * cmplx.Rect(1, 2*math.Pi*float64(i*pairs)/float64(coils))
			n++
		}
	}
	return cmplx.Abs(sum) / n
}

// TestOneWay holds the arrangement of one phase against its factor.
func TestOneWay(t *testing.T) {
	for coils := 1; coils <= 60; coils++ {
		for pairs := 1; pairs <= 20; pairs++ {
			a, _ := tryArrange(coils, pairs, 1)
			kit.Near(t, "as arranged", arranged(a, coils, pairs), a.factor, 1e-12)
		}
	}
}

func BenchmarkDistributionFactor(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		for _, in := range []DistributionFactorInput{{199, 200, 1}, {200, 198, 3}, {198, 200, 3}} {
			_, _ = DistributionFactor(in)
		}
	}
}

// TestPitchFactor: a coil of 5/6 of a pole has sin(75°) = 0.9659258 (textbook),
// which is what 12 slots with 10 poles have beside their distribution.
func TestPitchFactor(t *testing.T) {
	w, err := WindingFactor(WindingFactorInput{Slots: 12, Poles: 10})
	if err != nil {
		t.Fatal(err)
	}
	d, err := DistributionFactor(DistributionFactorInput{Coils: 12, Poles: 10, Phases: 3})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "pitch factor, textbook", w.Factor/d.Factor, 0.9659258, 1e-7)
}
