package main

import (
	"context"
	"errors"
	"os"
	"os/signal"
	"syscall"
)

// A stopSignal is the signal that ended a run.
type stopSignal struct{ syscall.Signal }

func (s stopSignal) Error() string { return s.Signal.String() }

// untilSignal is done once somebody asks the program to end: by Ctrl-C, by closing
// its terminal, or as systems do when they shut down. Whoever is in the middle of
// writing a file may finish it. A second signal ends the program at once; one that
// was ignored from the start, as under nohup, stays ignored.
func untilSignal() (ctx context.Context, stop func()) {
	ctx, cancel := context.WithCancelCause(context.Background())
	came := make(chan os.Signal, 1)
	for _, s := range append([]os.Signal{os.Interrupt, syscall.SIGTERM}, hangups...) {
		if !isIgnored(s) {
			signal.Notify(came, s)
		}
	}
	go func() {
		select {
		case s := <-came:
			signal.Stop(came)
			number, _ := s.(syscall.Signal)
			cancel(stopSignal{number})
		case <-ctx.Done():
		}
	}()
	return ctx, func() {
		signal.Stop(came)
		cancel(nil)
	}
}

// stoppedBy is the exit code after the signal that ended a run.
func stoppedBy(ctx context.Context) int {
	var s stopSignal
	if errors.As(context.Cause(ctx), &s) {
		return signalled + int(s.Signal)
	}
	return signalled + int(syscall.SIGINT)
}
