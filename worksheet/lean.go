//go:build lean

package worksheet

import (
	"context"

	"inkwing/evaluate/report"
	"inkwing/worksheet/markdown"
)

// gather leaves blocks alone that ask of other journals. The evaluator inside of a
// page is built so: it has no other journals, and what reads their rules would be a
// third of it.
func gather(context.Context, runner, Files, *markdown.Document, *report.Report) {}

// columns are none: no search is made.
func columns() []string { return nil }
