package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestLapwingCarries holds the page of the large sample to its size, its sources
// included, and to what they come to.
func TestLapwingCarries(t *testing.T) {
	to := filepath.Join(t.TempDir(), "page.html")
	var stdout, stderr bytes.Buffer
	if status := run([]string{"page", "../../samples/lapwing/journal.md", "-o", to}, nil, &stdout, &stderr); status != fine {
		t.Fatalf("status %d: %s", status, stderr.String())
	}
	const most = 250_000
	if info, err := os.Stat(to); err != nil || info.Size() > most {
		t.Errorf("%v bytes, over %d; %v", info.Size(), most, err)
	}
	stdout.Reset()
	if status := run([]string{"check", to}, nil, &stdout, &stderr); status != fine || !strings.Contains(stdout.String(), "shows what its sources come to\n") {
		t.Errorf("status %d: %s%s", status, stdout.String(), stderr.String())
	}
}
