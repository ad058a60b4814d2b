package main

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync"
	"time"
)

// What a run may hold in memory, so that the process stays under half a gigabyte.
// From the first on the collector works harder; at the second what is being worked is
// given up; and where that does not help, because it is in the middle of something
// that cannot be stopped, the program ends at the third. Files are replaced whole or
// not at all, so that it may end at any moment. Where several worksheets are worked
// side by side, each of the others has the fourth to come to where it can be stopped:
// by itself it may do with less, and it is worked again then.
const (
	memoryGoal  = 256 << 20
	memoryBound = 384 << 20
	memoryEnd   = 440 << 20
	memoryOther = 256 << 20
)

// leisure is how much the heap may grow before it is gone through, in percent: a page is
// worked a fifth quicker so. The goal of memory holds as ever.
const leisure = 400

var errTooGreedy = trouble{fmt.Errorf("takes more than %d MiB of memory", memoryBound>>20),
	"split the worksheet, thin its tables out, or let its what-ifs take fewer values and `draws` fewer draws"}

// errCrowded is the cause where more than one worksheet is being worked: each may do
// with less, and is worked again by itself.
var errCrowded = fmt.Errorf("all that is worked at once %w", errTooGreedy.error)

// A memoryKeeper watches what runs.
type memoryKeeper struct {
	sync.Mutex
	running map[*job]bool
	start   sync.Once
	alone   sync.RWMutex // held by whoever wants to be the only one
	patient bool         // the program is not ended for the time that one takes
}

// A job is a file that is being worked.
type job struct {
	cancel context.CancelCauseFunc
	effort time.Duration // of processors so far
}

var memory = memoryKeeper{running: map[*job]bool{}}

// boundedWork gives a context in which one file is worked: for a minute at most, and
// until too much memory is held or processors have worked for too long. The second
// function is called when that is done.
func boundedWork(ctx context.Context) (context.Context, func()) {
	memory.alone.RLock()
	ctx, done := memory.within(ctx)
	return ctx, func() {
		done()
		memory.alone.RUnlock()
	}
}

// boundedLoneWork is boundedWork while nothing else is.
func boundedLoneWork(ctx context.Context) (context.Context, func()) {
	memory.alone.Lock()
	debug.FreeOSMemory()
	ctx, done := memory.within(ctx)
	return ctx, func() {
		done()
		memory.alone.Unlock()
	}
}

func (k *memoryKeeper) within(ctx context.Context) (context.Context, func()) {
	k.start.Do(func() {
		debug.SetGCPercent(leisure)
		debug.SetMemoryLimit(memoryGoal)
		go k.watch()
	})
	k.tidied()
	ctx, late := context.WithTimeoutCause(ctx, workTime, errTooLong)
	ctx, cancel := context.WithCancelCause(ctx)
	j := &job{cancel: cancel}
	k.Lock()
	k.running[j] = true
	k.Unlock()
	return ctx, func() {
		k.Lock()
		delete(k.running, j)
		k.Unlock()
		cancel(nil)
		late()
	}
}

// tidied has what nobody holds any more collected before the first of several is worked:
// after many others it would count for the next, however small that is.
func (k *memoryKeeper) tidied() {
	k.Lock()
	idle := len(k.running) == 0
	k.Unlock()
	if idle && heldMemory() > memoryGoal {
		runtime.GC()
	}
}

func (k *memoryKeeper) watch() {
	worked := processorTime()
	for range time.Tick(5 * time.Millisecond) {
		now := processorTime()
		k.charge(now - worked)
		worked = now
		held := heldMemory()
		if held > k.end() {
			os.Stderr.WriteString("inkwing: error: a worksheet " + errTooGreedy.Error() + ", and cannot be stopped\ninkwing: hint: " + errTooGreedy.hint + "\n")
			os.Exit(failed)
		}
		if held > memoryBound {
			k.giveUp()
		}
	}
}

// end is how much may be held until the program ends.
func (k *memoryKeeper) end() uint64 {
	k.Lock()
	defer k.Unlock()
	return memoryEnd + memoryOther*uint64(max(0, len(k.running)-1))
}

// giveUp ends all that is being worked.
func (k *memoryKeeper) giveUp() {
	k.Lock()
	defer k.Unlock()
	var cause error = errTooGreedy
	if len(k.running) > 1 {
		cause = errCrowded
	}
	for j := range k.running {
		j.cancel(cause)
	}
}

// heldMemory is what the system has given the program, less what it gave back.
func heldMemory() uint64 {
	s := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}, {Name: "/memory/classes/heap/free:bytes"}}
	metrics.Read(s)
	return s[0].Value.Uint64() - s[1].Value.Uint64() - s[2].Value.Uint64()
}
