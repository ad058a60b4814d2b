//go:build linux

package library

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"
	"cmp"
	"slices"
)

// the worst of a function, called again and again for a profile
func TestCase(t *testing.T) {
	f, n := os.Getenv("FN"), 3000
	if s := os.Getenv("N"); s != "" { n, _ = strconv.Atoi(s) }
	for _, f := range func() (l []*Function) { for _, x := range All() { if strings.Contains(","+f+",", ","+x.Name+",") { l = append(l, x) } }; return }() {
		random := rand.New(rand.NewPCG(*worstSeed, 4))
		type row struct { took time.Duration; in []any; i int }
		var rows []row
		for i := range n {
			o := &oddity{Rand: random, drawn: map[string][]float64{}}
			in := plausible(f.Params, random)
			if i%2 == 1 {
				in = o.values(f.Params)
			}
			took, _ := timed(t.Context(), f, in)
			rows = append(rows, row{took, in, i})
		}
		slices.SortFunc(rows, func(a, b row) int { return cmp.Compare(b.took, a.took) })
		for _, r := range rows[:12] {
			took, fault := timed(t.Context(), f, r.in)
			_, _, err := f.Call(t.Context(), r.in)
			fmt.Fprintln(os.Stderr, f.Name, r.i, r.took, took, fault, err)
		}
		if os.Getenv("REP") != "" {
			k, _ := strconv.Atoi(os.Getenv("REP"))
			for range 20 { timed(t.Context(), f, rows[k].in) }
		}
	}
}
