//go:build unix

package worksheet

import (
	"syscall"
	"time"
)

// clock is the time that processors have worked for this process: what else goes on
// in the machine does not count.
func clock() time.Duration {
	var used syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &used) != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
