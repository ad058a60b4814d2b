//go:build linux

package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// greedily lets TestGreedy try all inputs, each with so many verbs beside check, which
// take turns: .ci/run has one, and nine are all. Without it check has the first inputs.
var greedily = flag.Int("greedily", 0, "let TestGreedy try all of its inputs, each with so many verbs beside check")

// What a process may take for any input of up to 16 MiB.
const (
	mostMemory = 512 << 20
	mostTime   = 10 * time.Second // of all processors together
)

// greedyVerbs are all verbs that work a worksheet.
var greedyVerbs = [][]string{
	{"check", "notes.md"}, {"check", "--json", "notes.md"}, {"explain", "notes.md"}, {"explain", "notes.md", "b"}, {"try", "notes.md", "b=2"},
	{"gather", "quantity where name == \"b\"", "notes.md"}, {"page", "notes.md"}, {"run", "notes.md"}, {"run", "notes.md"}, {"strip", "notes.md"},
}

// TestGreedy takes inputs that ask for much through the program, each in a process
// of its own: it is worked, or refused with what is too much, within half a gigabyte
// and seconds. A process that takes gigabytes is stopped by the system.
func TestGreedy(t *testing.T) {
	inputs := greedies
	if *greedily > 0 {
		inputs = append(inputs, greedierStill...)
	}
	for n, g := range inputs {
		t.Run(g.name, func(t *testing.T) {
			dir := t.TempDir()
			g.write(t, dir)
			for i, args := range someVerbs(n) {
				says := inBounds(t, dir, args...)
				if i == 0 && !strings.Contains(says, g.says) {
					t.Errorf("it says %.400q, and not %q", says, g.says)
				}
			}
		})
	}
}

// someVerbs are check and those whose turn it is, in their order.
func someVerbs(turn int) [][]string {
	others := len(greedyVerbs) - 1
	verbs := greedyVerbs[:1:1]
	for i, verb := range greedyVerbs[1:] {
		if (i-turn*(*greedily)%others+others)%others < *greedily {
			verbs = append(verbs, verb)
		}
	}
	return verbs
}

// inBounds runs the program in a folder, and wants it to stay within its bounds. The
// system counts the memory of this process, which starts it, as the program's until it
// has more of its own: so an input's answer is to be short.
func inBounds(t *testing.T, dir string, args ...string) (says string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 90*time.Second)
	defer cancel()
	c := exec.CommandContext(ctx, "sh", append([]string{"-c", "ulimit -v 4000000; exec inkwing \"$@\"", "sh"}, args...)...)
	c.Dir = dir
	var out bytes.Buffer
	c.Stdout, c.Stderr = &out, &out
	err := c.Run()
	if c.ProcessState == nil {
		t.Fatal(err)
	}
	memory, cpu := c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss<<10, c.ProcessState.UserTime()+c.ProcessState.SystemTime()
	if memory > mostMemory || cpu > mostTime {
		t.Errorf("%s: %d MB, %v of processors", strings.Join(args, " "), memory>>20, cpu)
	}
	if code := c.ProcessState.ExitCode(); code != fine && code != attention && code != failed || strings.Contains(out.String(), "goroutine ") {
		t.Errorf("%s: exit code %d, %.400q", strings.Join(args, " "), code, out.String())
	}
	t.Logf("%-40s %4d MB %6.2f s", strings.Join(args, " "), memory>>20, cpu.Seconds())
	return out.String()
}

// TestManyJournals works a folder of ten thousand small journals: nothing of one is
// kept for the next.
func TestManyJournals(t *testing.T) {
	if *greedily == 0 {
		t.Skip("it takes half a minute: -greedily 1")
	}
	const journals, most = 10_000, 200 << 20
	dir := t.TempDir()
	for i := range journals {
		write(t, filepath.Join(dir, fmt.Sprintf("j%05d.md", i)), fmt.Sprintf(smallJournal, i, 40+i%20))
	}
	for _, args := range [][]string{{"run", "."}, {"check", "."}, {"check", "--json", "."}} {
		c := exec.Command("inkwing", args...)
		c.Dir = dir
		start := time.Now()
		c.Run()
		memory := c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss << 10
		t.Logf("%-20s %4d MB %6.2f s, %v of processors", strings.Join(args, " "), memory>>20, time.Since(start).Seconds(), c.ProcessState.UserTime()+c.ProcessState.SystemTime())
		if memory > most || c.ProcessState.ExitCode() != fine {
			t.Errorf("%v: %d MB, exit code %d", args, memory>>20, c.ProcessState.ExitCode())
		}
	}
}
