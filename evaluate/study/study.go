// Package study asks what if: it works slices of a program again with other
// inputs.
//
// [Work] works a vary, adjust or tune for a machine.
package study

import (
	"fmt"

	"inkwing/evaluate/check"
	"inkwing/evaluate/run"
)

// Work works a study with the machine as it stands. What it comes to is a
// table for vary, a number for adjust, and a number or record for tune.
func Work(m *run.Machine, n check.Node) (any, *run.Fault) {
	panic(fmt.Sprintf("study: no way to work a %T", n))
}
