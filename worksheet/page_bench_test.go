package worksheet

import (
	"os"
	"testing"
)

// BenchmarkPage makes the page of the large sample, which is to take less than a
// tenth of a second.
func BenchmarkPage(b *testing.B) {
	text, err := os.ReadFile("../samples/lapwing/journal.md")
	if err != nil {
		b.Fatal(err)
	}
	files := osFiles("../samples/lapwing")
	for b.Loop() {
		if made, refused := Page(b.Context(), files, "journal.md", text, nil); len(refused) > 0 || len(made.Sections) == 0 {
			b.Fatal(refused)
		}
	}
}

type osFiles string

func (f osFiles) Read(name string) ([]byte, error)   { return os.ReadFile(string(f) + "/" + name) }
func (f osFiles) List(name string) ([]string, error) { return nil, nil }
