package main

import (
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
)

func TestCommit(t *testing.T) {
	of := func(settings ...debug.BuildSetting) *debug.BuildInfo { return &debug.BuildInfo{Settings: settings} }
	revision := debug.BuildSetting{Key: "vcs.revision", Value: "0123456789abcdef0123"}
	for _, c := range []struct {
		info *debug.BuildInfo
		want string
	}{
		{nil, "of no known commit"}, {of(), "of no known commit"},
		{of(revision), "commit 0123456789ab"},
		{of(revision, debug.BuildSetting{Key: "vcs.modified", Value: "false"}), "commit 0123456789ab"},
		{of(debug.BuildSetting{Key: "vcs.modified", Value: "true"}, revision), "commit 0123456789ab and what was changed since"},
	} {
		if got := commit(c.info); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

// TestVersion wants what a report of a fault needs: version, commit, Go.
func TestVersion(t *testing.T) {
	var out strings.Builder
	if code := run([]string{"--version"}, strings.NewReader(""), &out, &out); code != fine {
		t.Errorf("exit code %d", code)
	}
	if !strings.HasPrefix(out.String(), "inkwing version ") || !strings.Contains(out.String(), "commit") || !strings.Contains(out.String(), runtime.Version()) {
		t.Error(out.String())
	}
}
