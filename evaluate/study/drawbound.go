package study

import (
	"fmt"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// What draws may take. A column is a number that is drawn or worked from draws: a
// block of it is held by each worker. A step is a node evaluated, some 30 ns; a
// simulation counts for as many as its time.
const (
	maxColumns      = 2000
	maxDrawnSteps   = 400_000_000
	simulationSteps = 3000
	fewestDraws     = 1000
)

// affordable is why so many draws are more than a run may work, nil where they are
// not. It evaluates everything once, and so knows beforehand.
func (u *Uncertainty) affordable(m *run.Machine, wanted []int, outputs, draws int) error {
	if n := len(u.Inputs) + outputs; n > maxColumns {
		return fmt.Errorf("%s numbers hang together with what is uncertain, and %s is the most; split the worksheet",
			message.Thousands(n), message.Thousands(maxColumns))
	}
	s := m.Around(defs(u.Inputs), wanted, 0)
	before := s.Steps()
	s.Evaluate(slices.Repeat([]any{0.0}, len(u.Inputs)))
	each := s.Steps() - before
	for _, d := range s.Defs() {
		each += simulationSteps * simulations(d.Node())
	}
	switch most := roundedDown(maxDrawnSteps / max(each, 1)); {
	case draws <= maxDrawnSteps/max(each, 1):
		return nil
	case most < fewestDraws:
		return fmt.Errorf("one draw is too much work already; split the worksheet, and draw in the part that needs it")
	default:
		return fmt.Errorf("%s of them are more work than a run may do; write `draws %s`", message.Thousands(draws), strings.ReplaceAll(message.Thousands(most), ",", "_"))
	}
}

// simulations counts the calls in a node whose answers hold a history.
func simulations(n program.Node) (count int) {
	if n == nil {
		return 0
	}
	if call, ok := n.(*program.Call); ok && slices.ContainsFunc(call.Func.Result.Params, isHistory) {
		count++
	}
	for _, child := range program.Children(n) {
		count += simulations(child)
	}
	return count
}

func isHistory(p library.Param) bool { return p.Shape.Kind == library.Table }

// roundedDown is the largest of 1, 2 and 5 times a power of ten up to n.
func roundedDown(n int) int {
	for power := 1; ; power *= 10 {
		if n < 10*power {
			for _, digit := range []int{5, 2} {
				if n >= digit*power {
					return digit * power
				}
			}
			return power
		}
	}
}
