//go:build unix

package desk_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"syscall"
	"testing"
	"time"

	"inkwing/worksheet/reading"
)

// cpu is the time that this process has worked.
func cpu() time.Duration {
	var u syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkSaves changes each plain number of the largest sample in its turn, and
// says what it costs to follow that, from the file being noticed to the event being
// sent, in CPU time: of both cores together, and of half of the numbers at most; and until
// an open page hears first which results moved, or that none did. Say -benchtime 1x: in
// a second round all would be remembered.
func BenchmarkSaves(b *testing.B) {
	dir := b.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../../samples")); err != nil {
		b.Fatal(err)
	}
	d := serve(b, dir)
	const name = "lapwing/journal.md"
	ask(b, "GET", d.Address()+"page/"+name, "", nil)
	text, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		b.Fatal(err)
	}
	room := reading.Open(nowhere{dir}, name, text, reading.Options{})
	a, err := room.Work(b.Context(), "", nil)
	if err != nil {
		b.Fatal(err)
	}
	var all, seen []time.Duration
	first := make(chan time.Duration, 100)
	events := hear(b, d)
	go func() {
		for heard := ""; ; {
			e, ok := <-events
			if !ok {
				return
			}
			if e.Page == name && e.Since != heard {
				heard = e.Since
				first <- cpu()
			}
		}
	}()
	for d.Streams() == 0 {
		time.Sleep(time.Millisecond)
	}
	for b.Loop() {
		for _, in := range a.Inputs {
			if in.Number == "" {
				continue
			}
			kept, problems, err := room.Keep(b.Context(), a.File, []reading.Change{{Name: in.Name, Text: fmt.Sprintf("%s%.*f%s", in.Before, in.Places, in.Low+(in.High-in.Low)*0.45, in.After)}})
			if err != nil || len(problems) > 0 {
				continue
			}
			if err := os.WriteFile(filepath.Join(dir, name), kept.Text, 0o666); err != nil {
				b.Fatal(err)
			}
			began := cpu()
			d.Settle(b.Context(), name)
			took := cpu() - began
			all = append(all, took)
			select {
			case at := <-first:
				seen = append(seen, at-began)
			case <-time.After(200 * time.Millisecond): // nothing that is shown
			}
			b.Logf("%-14s %6.1f ms", in.Name, float64(took.Microseconds())/1000)
			if err := os.WriteFile(filepath.Join(dir, name), text, 0o666); err != nil {
				b.Fatal(err)
			}
			d.Settle(b.Context(), name)
			select {
			case <-first:
			case <-time.After(200 * time.Millisecond):
			}
		}
	}
	slices.Sort(all)
	slices.Sort(seen)
	b.ReportMetric(float64(seen[len(seen)/2].Microseconds())/1000, "ms-seen-half")
	b.ReportMetric(float64(seen[len(seen)*9/10].Microseconds())/1000, "ms-seen-nine-of-ten")
	b.ReportMetric(float64(all[len(all)/2].Microseconds())/1000, "ms-half")
	b.ReportMetric(float64(all[len(all)-1].Microseconds())/1000, "ms-most")
}

// nowhere reads files of a folder.
type nowhere struct{ dir string }

func (n nowhere) Read(name string) ([]byte, error) { return os.ReadFile(filepath.Join(n.dir, name)) }
func (n nowhere) List(string) ([]string, error)    { return nil, nil }
