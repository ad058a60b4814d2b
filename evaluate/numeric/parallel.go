package numeric

import (
	"sync"
	"sync/atomic"
)

// Parallel does the tasks 0 to n-1, each with one of the workers, at most one
// task a worker at a time. A task writes to a place of its own, so that what
// comes out does not depend on how many workers there are. A panic in a task is
// passed on to the caller.
func Parallel(workers, n int, task func(worker, i int)) {
	workers = min(workers, n)
	if workers <= 1 {
		for i := range n {
			task(0, i)
		}
		return
	}
	var next atomic.Int64
	var wait sync.WaitGroup
	var first sync.Once
	var trouble any
	for w := range workers {
		wait.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					first.Do(func() { trouble = r })
				}
			}()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				task(w, i)
			}
		})
	}
	wait.Wait()
	if trouble != nil {
		panic(trouble)
	}
}
