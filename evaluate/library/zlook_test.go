//go:build linux

package library

import (
	"fmt"
	"math/rand/v2"
	"os"
	"testing"
	"time"
	"cmp"
	"slices"
	"strings"
	"inkwing/evaluate/library/generator"
)

func TestLooks(t *testing.T) {
	for _, name := range strings.Split(os.Getenv("FN"), ",") {
		var f *Function
		for _, x := range All() { if x.Name == name { f = x } }
		random := rand.New(rand.NewPCG(*worstSeed, 4))
		type row struct { took time.Duration; i, looks int; err error; quiet bool }
		var rows, good []row
		for i := range 6000 {
			o := &oddity{Rand: random, drawn: map[string][]float64{}}
			in := plausible(f.Params, random)
			if i%2 == 1 {
				in = o.values(f.Params)
			}
			generator.Looks = 0
			start := thread()
			_, _, err := f.Call(t.Context(), in)
			r := row{took: thread() - start, i: i, looks: generator.Looks, err: err}
			if err == nil { good = append(good, r) } else { rows = append(rows, r) }
		}
		for _, l := range [][]row{good, rows} {
			slices.SortFunc(l, func(a, b row) int { return cmp.Compare(b.looks, a.looks) })
			fmt.Println(name, len(l))
			for k, r := range l {
				if k < 25 || k < 400 && k%50 == 0 { fmt.Println(k, r.i, r.looks, r.took, r.err) }
			}
		}
	}
}
