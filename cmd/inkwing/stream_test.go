package main

import (
	"errors"
	"strings"
	"testing"
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
