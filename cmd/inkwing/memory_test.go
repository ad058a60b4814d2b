//go:build linux

package main

import (
	"context"
	"errors"
	"math"
	"os"
	"os/exec"
	"runtime/debug"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestMemoryWatch takes memory in a process of its own until it is told to stop, and
// then goes on, or does not: either way the process stays within half a gigabyte.
func TestMemoryWatch(t *testing.T) {
	if kind := os.Getenv("MEMORY_TEST"); kind != "" {
		os.Exit(takeMemory(kind == "deaf"))
	}
	for kind, want := range map[string]string{"listening": "takes more than 384 MiB of memory", "deaf": "and cannot be stopped"} {
		c := exec.Command(os.Args[0], "-test.run", "^TestMemoryWatch$")
		c.Env = append(os.Environ(), "MEMORY_TEST="+kind)
		out, _ := c.CombinedOutput()
		memory := c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss << 10
		if c.ProcessState.ExitCode() != failed || !strings.Contains(string(out), want) || memory > mostMemory {
			t.Errorf("%s: exit code %d, %d MB, %q", kind, c.ProcessState.ExitCode(), memory>>20, out)
		}
	}
}

// takeMemory holds more and more, up to two gigabytes, and looks whether it is to
// stop unless it is deaf.
func takeMemory(deaf bool) int {
	ctx, done := boundedWork(context.Background())
	defer done()
	var held [][]byte
	for range 2048 {
		one := make([]byte, 1<<20)
		for i := range one {
			one[i] = 1
		}
		held = append(held, one)
		if !deaf && ctx.Err() != nil {
			os.Stderr.WriteString(context.Cause(ctx).Error())
			return failed
		}
	}
	return len(held)
}

// TestEffortWatch keeps a processor busy in a process of its own until it is told to
// stop, and then stops, or does not: either way the process is at an end soon.
func TestEffortWatch(t *testing.T) {
	if kind := os.Getenv("EFFORT_TEST"); kind != "" {
		os.Exit(keepBusy(kind == "deaf"))
	}
	for kind, want := range map[string]string{"listening": "takes more than 9s of processors", "deaf": "and cannot be stopped"} {
		c := exec.Command(os.Args[0], "-test.run", "^TestEffortWatch$")
		c.Env = append(os.Environ(), "EFFORT_TEST="+kind)
		out, _ := c.CombinedOutput()
		took := c.ProcessState.UserTime() + c.ProcessState.SystemTime()
		if c.ProcessState.ExitCode() != failed || !strings.Contains(string(out), want) || took > 3*time.Second {
			t.Errorf("%s: exit code %d, %v of processors, %q", kind, c.ProcessState.ExitCode(), took, out)
		}
	}
}

// keepBusy works for a minute, and looks whether it is to stop unless it is deaf. The
// bounds are a tenth of what they are.
func keepBusy(deaf bool) int {
	workTime, effortBound, effortEnd = time.Hour, effortBound/10, effortEnd/10
	ctx, done := boundedWork(context.Background())
	defer done()
	for start := processorTime(); processorTime() < start+time.Minute; {
		if !deaf && ctx.Err() != nil {
			os.Stderr.WriteString(context.Cause(ctx).Error())
			return failed
		}
	}
	return fine
}

// TestCharged gives up the one that has had too much of processors, by itself for good
// and beside others to be worked again.
func TestCharged(t *testing.T) {
	for _, c := range []struct {
		jobs   int
		worked time.Duration
		want   error
	}{
		{1, effortBound, nil}, {1, effortBound + 1, errTooLaborious}, {2, 2 * effortBound, nil}, {2, 2*effortBound + 2, errCrowdedEffort},
	} {
		k := memoryKeeper{running: map[*job]bool{}}
		var contexts []context.Context
		for range c.jobs {
			ctx, cancel := context.WithCancelCause(t.Context())
			k.running[&job{cancel: cancel}] = true
			contexts = append(contexts, ctx)
		}
		k.charge(c.worked)
		for _, ctx := range contexts {
			if got := context.Cause(ctx); !errors.Is(got, c.want) {
				t.Errorf("%d at once, %v: %v, want %v", c.jobs, c.worked, got, c.want)
			}
		}
	}
}

// crowded is a folder during whose first reading another worksheet makes memory
// scarce.
type crowded struct {
	restless
	reads int
	end   uint64 // beside another
}

func (c *crowded) Read(name string) ([]byte, error) {
	if c.reads++; c.reads == 1 {
		_, done := boundedWork(context.Background())
		c.end = memory.end()
		memory.giveUp()
		done()
	}
	return c.restless.Read(name)
}

// TestCrowded works a worksheet again by itself where it was given up beside others,
// and gives it up where it was alone.
func TestCrowded(t *testing.T) {
	f := &crowded{restless: restless{journal, 0}}
	r, err := (&target{shown: "notes.md", name: "notes.md", folder: f}).work(t.Context())
	if err != nil || r == nil || r.Report == nil || f.reads != 2 {
		t.Errorf("%v after %d readings", err, f.reads)
	}
	if alone := memory.end(); alone != memoryEnd || f.end != memoryEnd+memoryOther {
		t.Errorf("the program ends at %d bytes, and beside another at %d", alone, f.end)
	}
	ctx, done := boundedWork(t.Context())
	defer done()
	memory.giveUp()
	if !errors.Is(context.Cause(ctx), errTooGreedy.error) {
		t.Errorf("alone: %v", context.Cause(ctx))
	}
}

// TestGivenUpInTime stops what asks whether it is to stop, once its minute is over.
func TestGivenUpInTime(t *testing.T) {
	ctx, done := boundedWork(t.Context())
	defer done()
	if end, ok := ctx.Deadline(); !ok || time.Until(end) > workTime {
		t.Errorf("it may go on until %v", end)
	}
}

// TestTidied works a page after what held much: none of that counts for it.
func TestTidied(t *testing.T) {
	_, done := memory.within(t.Context()) // the watch and its goals are set
	done()
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(math.MaxInt64))
	defer debug.SetGCPercent(debug.SetGCPercent(-1))
	func() {
		litter := make([]byte, 300<<20)
		for i := range litter {
			litter[i] = 1
		}
	}()
	if held := heldMemory(); held < memoryGoal {
		t.Fatalf("only %d MiB lie about", held>>20)
	}
	_, done = memory.within(t.Context())
	defer done()
	if held := heldMemory(); held > memoryGoal {
		t.Errorf("a page begins with %d MiB held", held>>20)
	}
}
