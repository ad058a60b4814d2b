package worksheet

import (
	"context"

	"inkwing/evaluate"
)

// evaluateSheet is what works a sheet outside of tests.
func evaluateSheet(ctx context.Context, sheet *evaluate.Sheet, load evaluate.Loader) *evaluate.Report {
	return evaluate.Work(ctx, sheet, load)
}
