//go:build !unix

package samples_test

import (
	"testing"
	"time"
)

// cpu is not known here.
func cpu(*testing.B) time.Duration { return 0 }
