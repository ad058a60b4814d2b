package main

import (
	"io"
	"path/filepath"
	"testing"
)

// BenchmarkPage makes the page of the large sample, from files to a file: it is to take
// less than 100 ms.
func BenchmarkPage(b *testing.B) {
	to := filepath.Join(b.TempDir(), "page.html")
	b.ReportAllocs()
	for b.Loop() {
		if status := run([]string{"page", "../../samples/lapwing/journal.md", "-o", to}, nil, io.Discard, io.Discard); status != fine {
			b.Fatalf("status %d", status)
		}
	}
}
