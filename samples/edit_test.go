package samples_test

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"inkwing/evaluate"
	"inkwing/worksheet"
)

// number is one of a line of a block, and not a part of a name.
var number = regexp.MustCompile(`(^|[^\w.])(\d+(?:\.\d+)?)`)

// numbers are the places of all numbers in the blocks of a text, remarks and texts left
// out.
func numbers(text []byte) (places [][2]int) {
	at, inside := 0, false
	for _, line := range bytes.SplitAfter(text, []byte("\n")) {
		code, _, _ := strings.Cut(string(line), "#")
		switch {
		case strings.HasPrefix(code, "```"):
			inside = strings.HasPrefix(code, "```working")
		case inside && !strings.Contains(code, `"`) && !strings.HasPrefix(code, "digits"):
			for _, m := range number.FindAllStringSubmatchIndex(code, -1) {
				places = append(places, [2]int{at + m[4], at + m[5]})
			}
		}
		at += len(line)
	}
	return places
}

// BenchmarkEdit edits one number of the journal after another, each as it stands at
// first, and works the page with a memo that knows it: what a builder waits for at a
// desk. With -v it lists them all.
func BenchmarkEdit(b *testing.B) {
	files := folder{os.DirFS("lapwing")}
	text, err := files.Read("journal.md")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		var took []time.Duration
		for _, at := range numbers(text) {
			ctx := evaluate.Remembering(context.Background(), evaluate.NewMemo())
			worksheet.WorkText(ctx, files, "journal.md", text, worksheet.Force)
			x, _ := strconv.ParseFloat(string(text[at[0]:at[1]]), 64)
			typed := strconv.FormatFloat(x*1.02, 'g', 6, 64)
			if x == float64(int(x)) && x < 100 {
				typed = strconv.Itoa(int(x) + 1)
			}
			changed := slices.Concat(text[:at[0]], []byte(typed), text[at[1]:])
			begun := cpu(b)
			worksheet.WorkText(ctx, files, "journal.md", changed, worksheet.Force)
			took = append(took, cpu(b)-begun)
			start := bytes.LastIndexByte(text[:at[0]], '\n') + 1
			b.Logf("%6.1f ms  %s → %s in %s", float64(took[len(took)-1].Microseconds())/1e3, text[at[0]:at[1]], typed, bytes.TrimSpace(text[start:bytes.IndexByte(text[at[0]:], '\n')+at[0]]))
		}
		slices.Sort(took)
		n := len(took)
		b.ReportMetric(float64(took[n/2].Microseconds())/1e3, "median-ms")
		b.ReportMetric(float64(took[n*9/10].Microseconds())/1e3, "ninth-of-ten-ms")
		b.ReportMetric(float64(took[n-1].Microseconds())/1e3, "worst-ms")
	}
}
