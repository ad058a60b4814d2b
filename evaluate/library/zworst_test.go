//go:build linux

package library

import (
	"cmp"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"
)

var worstSets = flag.Int("worst", 0, "")
var worstSeed = flag.Uint64("seed", 11, "")
var only = flag.String("only", "", "")

func TestWorst(t *testing.T) {
	type row struct {
		name string
		took time.Duration
		odd  bool
		in   []any
		err  error
	}
	var rows []row
	for _, f := range All() {
		if *only != "" && f.Name != *only {
			continue
		}
		random := rand.New(rand.NewPCG(*worstSeed, 4))
		var mine []row
		spent := time.Now()
		n := 0
		over := 0
		for i := range *worstSets {
			o := &oddity{Rand: random, drawn: map[string][]float64{}}
			in := plausible(f.Params, random)
			if i%2 == 1 {
				in = o.values(f.Params)
			}
			took, fault := timed(t.Context(), f, in)
			if took > 4*time.Millisecond {
				t2, _ := timed(t.Context(), f, in)
				took = min(took, t2)
			}
			if took > 10*time.Millisecond {
				over++
			}
			n++
			mine = append(mine, row{f.Name, took, i%2 == 1, in, fault})
			if time.Since(spent) > 60*time.Second {
				break
			}
			if len(mine) > 100 {
				slices.SortFunc(mine, func(a, b row) int { return cmp.Compare(b.took, a.took) })
				mine = mine[:3]
			}
		}
		slices.SortFunc(mine, func(a, b row) int { return cmp.Compare(b.took, a.took) })
		if mine[0].took > 2*time.Millisecond {
			fmt.Fprintf(os.Stderr, "%-26s calls %6d over10 %d\n", f.Name, n, over)
		}
		rows = append(rows, mine[:min(3, len(mine))]...)
	}
	slices.SortFunc(rows, func(a, b row) int { return cmp.Compare(b.took, a.took) })
	for _, r := range rows[:min(40, len(rows))] {
		fmt.Fprintf(os.Stderr, "%v %s odd=%v %v %v\n", r.took, r.name, r.odd, r.err, r.in)
	}
}
