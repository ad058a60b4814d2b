package study

import (
	"testing"

	"inkwing/evaluate/message"
	"inkwing/evaluate/run"
)

// TestGap wants the fault of the lowest place, in whatever order cores met them,
// and keeps that one of them asked for whole numbers.
func TestGap(t *testing.T) {
	faults := []*run.Fault{fault("first"), fault("second"), fault("third")}
	places := [][]float64{{1, 9}, {2, 0}, {2, 1}}
	for _, order := range [][]int{{0, 1, 2}, {2, 1, 0}, {1, 2, 0}, {1, 0, 2}} {
		var here, there gap
		for i, k := range order {
			g := &here
			if i == 1 {
				g = &there
			}
			g.note(faults[k], places[k], k == order[0])
		}
		here.join(there)
		if here.fault != faults[0] || here.at[1] != 9 || !here.whole {
			t.Errorf("%v: %v at %v, whole %v", order, here.fault, here.at, here.whole)
		}
		there.join(gap{})
		if there.fault != faults[order[1]] || there.whole {
			t.Errorf("%v: nothing joined, but %v at %v", order, there.fault, there.at)
		}
	}
}

// TestWantsWhole tells a place between whole numbers from one on them, and a
// fault that asks for whole numbers from another.
func TestWantsWhole(t *testing.T) {
	whole := fault("`n` must be a whole number")
	for _, c := range []struct {
		x    float64
		f    *run.Fault
		want bool
	}{{2.5, whole, true}, {2, whole, false}, {2.5, fault("this is zero"), false}} {
		if got := wantsWhole(c.x, c.f); got != c.want {
			t.Errorf("%v, %s: %v", c.x, c.f.Summary, got)
		}
	}
}

func fault(summary string) *run.Fault { return run.Fail(message.Span{}, summary, "") }
