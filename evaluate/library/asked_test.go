//go:build linux

package library

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"
)

// TestCallWithout leaves out what nobody asks for, in plausible calls and in odd ones:
// what is left comes to the same bits as in the whole answer.
func TestCallWithout(t *testing.T) {
	const calls = 1500
	left := map[string]int{}
	for _, f := range All() {
		random := rand.New(rand.NewPCG(9, 10))
		for i := range calls * min(1, len(f.Asked)) {
			in := plausible(f.Params, random)
			if i%4 == 3 {
				in = (&oddity{Rand: random, drawn: map[string][]float64{}}).values(f.Params)
			}
			whole, _, err := f.Call(context.Background(), in)
			if err != nil {
				continue
			}
			for _, a := range f.Asked {
				part, err := f.CallWithout(context.Background(), in, []string{a.Name})
				if err != nil {
					t.Fatalf("%s without %s: %v", f.Name, a.Name, err)
				}
				for _, i := range a.Fields {
					if part.(Record)[i] != (LeftOut{}) {
						t.Errorf("%s without %s gives %s", f.Name, a.Name, f.Result.Params[i].Name)
					}
					part.(Record)[i] = whole.(Record)[i]
				}
				if is, want := fmt.Sprintf("%x", bare(f.Result, part)), fmt.Sprintf("%x", bare(f.Result, whole)); is != want {
					t.Errorf("%s at %v without %s comes to\n%s, whole\n%s", f.Name, in, a.Name, is, want)
				}
				left[f.Name]++
			}
		}
	}
	for _, f := range All() {
		if len(f.Asked) > 0 && left[f.Name] < 5 && f.Name != "flight" { // which takes more luck, and has a test of its own
			t.Errorf("only %d calls of %s left something out", left[f.Name], f.Name)
		}
	}
}
