package study

import (
	"math"
	"slices"
	"strings"

	"inkwing/evaluate/run"
)

// A gap is why a study could not be worked everywhere. Of many places it keeps
// the lowest, so that what is said does not depend on how many cores there are.
type gap struct {
	fault *run.Fault // nil for none
	at    []float64
	whole bool // a place between whole numbers was refused for that
}

func (g *gap) note(f *run.Fault, at []float64, whole bool) {
	g.whole = g.whole || whole
	if g.fault == nil || slices.Compare(at, g.at) < 0 {
		g.fault, g.at = f, slices.Clone(at)
	}
}

// join takes in what another core met.
func (g *gap) join(other gap) {
	if other.fault != nil {
		g.note(other.fault, other.at, other.whole)
	}
}

// wantsWhole reports whether a place was refused since it lies between whole
// numbers.
func wantsWhole(x float64, f *run.Fault) bool {
	return x != math.Trunc(x) && strings.Contains(f.Summary, "whole number")
}
