package samples_test

import (
	"context"
	"os"
	"testing"

	"inkwing/worksheet"
)

// BenchmarkLapwing works the whole journal in process, from bytes to bytes.
func BenchmarkLapwing(b *testing.B) {
	files := folder{os.DirFS("lapwing")}
	text, err := files.Read("journal.md")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if r := worksheet.WorkText(context.Background(), files, "journal.md", text); len(r.Report.Errors) > 0 {
			b.Fatal(r.Report.Errors)
		}
	}
}
