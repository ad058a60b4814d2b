package samples_test

import (
	"context"
	"os"
	"regexp"
	"runtime/debug"
	"testing"

	"inkwing/worksheet"
)

// spread is what makes an input of the journal uncertain.
var spread = regexp.MustCompile(` ± [0-9.]+( [^\s|)]+)?`)

// observed is a mean with the scatter of its readings.
var observed = regexp.MustCompile(`observed\(`)

// certain is the samples without a spread, as the journal was before it had any.
type certain struct{ folder }

func (c certain) Read(name string) ([]byte, error) {
	text, err := c.folder.Read(name)
	return observed.ReplaceAll(spread.ReplaceAll(text, nil), []byte("mean(")), err
}

// BenchmarkLapwing works whole pages in process, from bytes to bytes: the
// journal with every input certain, as it stands, and the page that asks it what
// if.
func BenchmarkLapwing(b *testing.B) {
	files := folder{os.DirFS("lapwing")}
	for _, c := range []struct {
		name, page string
		files      worksheet.Files
	}{
		{"certain", "journal.md", certain{files}}, {"journal", "journal.md", files}, {"winter", "winter.md", files},
	} {
		b.Run(c.name, func(b *testing.B) { workPage(b, c.files, c.page) })
	}
}

// workPage works a page whatever stands in its regions: without the spreads they
// are not what a run wrote.
func workPage(b *testing.B, files worksheet.Files, page string) {
	text, err := files.Read(page)
	if err != nil {
		b.Fatal(err)
	}
	onProcessors(b, func() {
		if r := worksheet.WorkText(context.Background(), files, page, text, worksheet.Force); len(r.Report.Errors) > 0 {
			b.Fatal(r.Report.Errors)
		}
	})
}

// onProcessors measures the time on processors beside that of the clock, the collector
// at leisure as in the program.
func onProcessors(b *testing.B, work func()) {
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	b.ReportAllocs()
	begun := cpu(b)
	for b.Loop() {
		work()
	}
	b.ReportMetric(float64((cpu(b)-begun).Microseconds())/1e3/float64(b.N), "cpu-ms/op")
}
