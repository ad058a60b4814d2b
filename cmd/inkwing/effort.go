package main

import (
	"fmt"
	"os"
	"time"
)

// How long processors may work on one worksheet: at the first it is given up, and where
// it cannot be stopped the program ends at the second. Tests take less.
var (
	effortBound = 9 * time.Second
	effortEnd   = 10 * time.Second
)

var errTooLaborious = trouble{fmt.Errorf("takes more than %v of processors", effortBound), errTooGreedy.hint}

// errCrowdedEffort is errCrowded for this: nobody can say whose work it was.
var errCrowdedEffort = fmt.Errorf("all that is worked at once %w", errTooLaborious.error)

// charge counts what the processors have done for what is being worked, in equal
// parts, and gives up what has had too much.
func (k *memoryKeeper) charge(worked time.Duration) {
	k.Lock()
	defer k.Unlock()
	for j := range k.running {
		j.effort += worked / time.Duration(len(k.running))
		switch {
		case j.effort > effortEnd && len(k.running) == 1 && !k.patient:
			os.Stderr.WriteString("inkwing: error: a worksheet " + errTooLaborious.Error() + ", and cannot be stopped\ninkwing: hint: " + errTooLaborious.hint + "\n")
			os.Exit(failed)
		case j.effort > effortBound && len(k.running) == 1:
			j.cancel(errTooLaborious)
		case j.effort > effortBound:
			j.cancel(errCrowdedEffort)
		}
	}
}

// patiently lets the program go on where a worksheet cannot be stopped.
func (k *memoryKeeper) patiently() {
	k.Lock()
	defer k.Unlock()
	k.patient = true
}
