package main

import (
	"context"
	"fmt"
	"os"
	"runtime/debug"
	"runtime/metrics"
	"sync"
	"time"
)

// What a run may hold in memory. From the first on the collector works harder; at
// the second what is being worked is given up; and where that does not help, because
// it is in the middle of something that cannot be stopped, the program ends at the
// third. Files are replaced whole or not at all, so that it may end at any moment.
const (
	memoryGoal  = 320 << 20
	memoryBound = 448 << 20
	memoryEnd   = 640 << 20
)

var errTooGreedy = trouble{fmt.Errorf("takes more than %d MiB of memory", memoryBound>>20),
	"split the worksheet, thin its tables out, or let its what-ifs take fewer values"}

// A keeper of memory watches what runs.
type memoryKeeper struct {
	sync.Mutex
	running map[*context.CancelCauseFunc]bool
	start   sync.Once
}

var memory = memoryKeeper{running: map[*context.CancelCauseFunc]bool{}}

// within gives a context that is done once too much memory is held.
func (k *memoryKeeper) within(ctx context.Context) (context.Context, func()) {
	k.start.Do(func() {
		debug.SetMemoryLimit(memoryGoal)
		go k.watch()
	})
	ctx, cancel := context.WithCancelCause(ctx)
	k.Lock()
	k.running[&cancel] = true
	k.Unlock()
	return ctx, func() {
		k.Lock()
		delete(k.running, &cancel)
		k.Unlock()
		cancel(nil)
	}
}

func (k *memoryKeeper) watch() {
	for range time.Tick(20 * time.Millisecond) {
		held := heldMemory()
		if held > memoryEnd {
			os.Stderr.WriteString("inkwing: error: a worksheet " + errTooGreedy.Error() + ", and cannot be stopped\ninkwing: hint: " + errTooGreedy.hint + "\n")
			os.Exit(failed)
		}
		if held > memoryBound {
			k.giveUp()
		}
	}
}

// giveUp ends all that is being worked.
func (k *memoryKeeper) giveUp() {
	k.Lock()
	defer k.Unlock()
	for cancel := range k.running {
		(*cancel)(errTooGreedy)
	}
}

// heldMemory is what the system has given the program, less what it gave back.
func heldMemory() uint64 {
	s := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}, {Name: "/memory/classes/heap/free:bytes"}}
	metrics.Read(s)
	return s[0].Value.Uint64() - s[1].Value.Uint64() - s[2].Value.Uint64()
}
