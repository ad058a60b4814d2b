//go:build !unix

package worksheet

import "time"

var began = time.Now()

// clock is the time since the beginning, where that of processors is not to be had.
func clock() time.Duration { return time.Since(began) }
