//go:build unix

package main

import (
	"os"
	"os/signal"
	"strings"
	"syscall"
	"testing"
)

// waiting is a standard input that nobody types into.
type waiting struct{ read chan struct{} }

func (w waiting) Read([]byte) (int, error) {
	close(w.read)
	select {}
}

// TestInterrupt sends this process what Ctrl-C sends, while a run waits for its
// standard input.
func TestInterrupt(t *testing.T) {
	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		interrupt(t, s)
	}
}

func interrupt(t *testing.T, s syscall.Signal) {
	// Should the run not listen, the test must not die of it.
	caught := make(chan os.Signal, 1)
	signal.Notify(caught, s)
	defer signal.Stop(caught)
	in := waiting{make(chan struct{})}
	go func() {
		<-in.read
		syscall.Kill(os.Getpid(), s)
	}()
	var stdout, stderr strings.Builder
	if got := run([]string{"run", "-"}, in, &stdout, &stderr); got != signalled+int(s) {
		t.Errorf("%v: exit code %d", s, got)
	}
	if stdout.String()+stderr.String() != "" {
		t.Errorf("printed %q, %q", stdout.String(), stderr.String())
	}
}
