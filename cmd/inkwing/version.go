package main

import (
	"cmp"
	"runtime"
	"runtime/debug"
)

// release is what a release calls itself; .ci/release has the linker put it in.
var release string

// version is the release, else the module's version as the Go toolchain recorded
// it.
func version() string {
	info, _ := debug.ReadBuildInfo()
	if info == nil {
		return cmp.Or(release, "(devel)")
	}
	return cmp.Or(release, info.Main.Version, "(devel)")
}

// built is what --version says: version, commit, Go.
func built() string {
	info, _ := debug.ReadBuildInfo()
	return version() + " (" + commit(info) + ", " + runtime.Version() + ")"
}

// commit is the commit that the program was built from, as far as that is known.
func commit(info *debug.BuildInfo) string {
	id, changed := "", ""
	if info != nil {
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				id = s.Value
			case s.Key == "vcs.modified" && s.Value == "true":
				changed = " and what was changed since"
			}
		}
	}
	if id == "" {
		return "of no known commit"
	}
	return "commit " + id[:min(len(id), 12)] + changed
}
