package worksheet

import (
	"context"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// TestLaidOutWithin ends the time as soon as all is worked: nothing is laid out then,
// and the text stays as it is.
func TestLaidOutWithin(t *testing.T) {
	text := []byte("Text.\n\n" + strings.Repeat("```working\nvary n in 1 to 3: m\n```\n\n", 20) + "```working\nn = 1\nm = 2 * n\n```\n")
	for _, ends := range []bool{false, true} {
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		w := runner{work: func(ctx context.Context, s *sheet.Sheet, l sheet.Loader) *report.Report {
			r := evaluate.Work(ctx, s, l)
			if ends {
				cancel()
			}
			return r
		}}
		r := w.run(ctx, folder{}, "a.md", text)
		stopped := len(r.Refused) == 1 && r.Refused[0].Summary == syntax.Stopped
		if stopped != ends || r.Changed() == ends {
			t.Errorf("ended %v: refused %v, changed %v", ends, r.Refused, r.Changed())
		}
	}
}
