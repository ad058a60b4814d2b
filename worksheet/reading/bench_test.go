package reading_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"inkwing/worksheet/reading"
)

// onDisk reads the samples.
type onDisk struct{}

func (onDisk) Read(name string) ([]byte, error) {
	return os.ReadFile(filepath.Join("../../samples", name))
}
func (onDisk) List(string) ([]string, error) { return nil, fs.ErrNotExist }

// BenchmarkWork works the largest sample again with nothing changed, so that the
// library's calls are all remembered: what remains is reading, checking, laying out.
func BenchmarkWork(b *testing.B) {
	text, err := onDisk{}.Read("lapwing/journal.md")
	if err != nil {
		b.Fatal(err)
	}
	r := reading.Open(onDisk{}, "lapwing/journal.md", text, reading.Options{})
	since := ""
	b.ReportAllocs()
	for b.Loop() {
		r.Save(text)
		a, err := r.Work(b.Context(), since, nil)
		if err != nil {
			b.Fatal(err)
		}
		since = a.Stamp
	}
}
