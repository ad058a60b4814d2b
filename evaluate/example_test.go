package evaluate

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/library"
)

// TestExamplesRun works the example of every library function, as explain
// prints it.
func TestExamplesRun(t *testing.T) {
	for _, f := range library.All() {
		if f.Doc.Example == "" {
			t.Errorf("%s has no example", f.Name)
			continue
		}
		r := work(kit.Block("example.md", f.Doc.Example), nil)
		for _, e := range r.Errors {
			t.Errorf("%s: %s | %s\n%s", f.Name, e.Summary, e.Hint, f.Doc.Example)
		}
		if !strings.Contains(f.Doc.Example, f.Name+"(") {
			t.Errorf("%s: the example does not call it", f.Name)
		}
	}
}

// BenchmarkWork is a page of notes, and twice and many times as much: the cost
// a statement must not grow.
func BenchmarkWork(b *testing.B) {
	for _, n := range []int{30, 2000, 4000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := kit.Chain(n)
			b.ReportAllocs()
			for b.Loop() {
				if r := work(s, nil); len(r.Errors) > 0 {
					b.Fatal(r.Errors)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*n), "µs/statement")
		})
	}
}

// BenchmarkLibrary is a page that calls the library.
func BenchmarkLibrary(b *testing.B) {
	s := kit.Block("notes.md", `cell = capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ)
store = pack(cell, series: 4)
t = hold_up_time(store, from: 10 V, to: 5 V, power: 8 W)
plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035)
down = glide(plane, height: 50 m)`)
	b.ReportAllocs()
	for b.Loop() {
		if r := work(s, nil); len(r.Errors) > 0 {
			b.Fatal(r.Errors)
		}
	}
}
