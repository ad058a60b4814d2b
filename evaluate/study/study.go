// Package study asks what if: it evaluates parts of a program again with other
// inputs.
//
// [Work] evaluates a vary, adjust or tune for a machine. What a vary comes to is a
// [*Table]; beside the value of an adjust or tune stands a [*Finding]. [Propagate]
// carries uncertain inputs through a program that was evaluated.
package study

import (
	"fmt"

	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// Work evaluates a study with the machine as it stands. What it comes to is a
// table for vary, a number for adjust, and a number or record for tune.
func Work(m *run.Machine, n program.Node) (any, *run.Fault) {
	switch x := n.(type) {
	case *program.Vary:
		return vary(m, x)
	case *program.Solve:
		return solve(m, x)
	case *program.Optimise:
		return optimise(m, x)
	}
	panic(fmt.Sprintf("study: no way to work a %T", n))
}

// A Finding is what an adjust or tune found beside its value.
type Finding struct {
	Others []float64      // of an adjust: further values at which its condition holds
	Broken []*program.Def // of an adjust: limits that do not hold there
	First  bool           // of an adjust by steps: it holds from the start
	Goal   float64        // of a tune: what the least or most comes to
	Next   *Next          // of a tune of one number: the second best place, nil for none
	Binds  []*program.Def // of a tune: limits without which it would be better still
	Edges  []string       // of a tune: variables that stand at an end of their range
}

// A Next is another place that is better than all around it.
type Next struct{ At, Goal float64 }
