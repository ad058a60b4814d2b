package disk

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// TestOpenOwn makes a folder for its owner alone, and none where it would lie in somebody
// else's, a file or nothing that can be.
func TestOpenOwn(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "one", "two")
	for range 2 {
		f, err := OpenOwn(dir)
		if err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
	if info, err := os.Stat(filepath.Join(top, "one")); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o700 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	file := filepath.Join(top, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{file, filepath.Join(file, "below"), "nul\x00"} {
		if f, err := OpenOwn(at); err == nil {
			f.Close()
			t.Errorf("%q was opened", at)
		}
	}
}

// TestOpenOwnOfOthers lets a run as root leave nothing in the home of the builder who called
// it.
func TestOpenOwnOfOthers(t *testing.T) {
	home := filepath.Join(t.TempDir(), "home")
	if err := os.Mkdir(home, 0o777); err != nil {
		t.Fatal(err)
	}
	if os.Chown(home, 12345, -1) != nil {
		t.Skip("only root can give a folder away")
	}
	for _, at := range []string{home, filepath.Join(home, ".cache", "inkwing")} {
		if f, err := OpenOwn(at); err == nil {
			f.Close()
			t.Errorf("%q was opened", at)
		}
	}
	if names, _ := os.ReadDir(home); len(names) > 0 {
		t.Errorf("%v was left there", names)
	}
}
