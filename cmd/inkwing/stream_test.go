package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"os/signal"
)

func TestColoured(t *testing.T) {
	for _, test := range []struct {
		env      map[string]string
		terminal bool
		want     bool
	}{
		{nil, true, true},
		{nil, false, false},
		{map[string]string{"NO_COLOR": "1"}, true, false},
		{map[string]string{"NO_COLOR": ""}, true, true},
		{map[string]string{"TERM": "dumb"}, true, false},
		{map[string]string{"FORCE_COLOR": "1", "NO_COLOR": "1"}, false, true},
		{map[string]string{"FORCE_COLOR": "0"}, true, false},
		{map[string]string{"FORCE_COLOR": "", "TERM": "dumb"}, true, false},
	} {
		got := coloured(func(name string) string { return test.env[name] }, test.terminal)
		if got != test.want {
			t.Errorf("%v on a terminal %v: %v", test.env, test.terminal, got)
		}
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// TestOutputFails holds that a result that nobody received is no success.
func TestOutputFails(t *testing.T) {
	var stderr strings.Builder
	if got := run([]string{"explain", "V"}, strings.NewReader(""), fullDisk{}, &stderr); got != failed {
		t.Errorf("exit code %d", got)
	}
	if !strings.Contains(stderr.String(), "inkwing: error: the output cannot be written: no space left on device") {
		t.Errorf("%q", stderr.String())
	}
}

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
	if _, err := os.FindProcess(os.Getpid()); err != nil || filepath.Separator == '\\' {
		t.Log("no signals between processes here")
		return
	}
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
