package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// smallJournal is a journal of a club's size: one block, a limit, prose.
const smallJournal = "# Journal %d\n\nSome words about the day.\n\n```working\n" +
	"cell = capacitor(capacitance: %d F, rated_voltage: 2.7 V, resistance: 16 mΩ, tolerance: 5 %%)\n" +
	"n_series = 4\nstore = pack(cell, series: n_series)\nV_full = 10 V ± 0.1 V\n" +
	"E_full [Wh] = 1/2 * store.capacitance * V_full^2\n" +
	"t_radio [min] = hold_up_time(store, from: 5.5 V, to: 4.5 V, current: 0.15 A)\n" +
	"limit worst_cell_voltage(store, V_full) <= cell.rated_voltage\n```\n\nThe radio lives for `t_radio [min] = ?`.\n"

// A folder of many journals takes what its journals take, in time and in memory:
// nothing of one is kept for the next. The measure is one check of a folder of 200.
func BenchmarkCheckFolder(b *testing.B) {
	const journals = 200
	dir := b.TempDir()
	for i := range journals {
		text := fmt.Sprintf(smallJournal, i, 40+i%20)
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("j%03d.md", i)), []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	if code := run([]string{"run", dir}, strings.NewReader(""), io.Discard, io.Discard); code != fine {
		b.Fatalf("exit code %d", code)
	}
	b.ReportAllocs()
	for b.Loop() {
		if code := run([]string{"check", dir}, strings.NewReader(""), io.Discard, io.Discard); code != fine {
			b.Fatalf("exit code %d", code)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/journals, "ns/journal")
}
