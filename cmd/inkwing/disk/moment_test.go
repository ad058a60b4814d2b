//go:build linux || windows

package disk

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// saves are the ways in which editors save a file.
var saves = map[string]func(t *testing.T, path, text string){
	"in place": func(t *testing.T, path, text string) { put(t, path, text) },
	"by renaming": func(t *testing.T, path, text string) {
		put(t, path+"~", text)
		if err := os.Rename(path+"~", path); err != nil {
			t.Error(err)
		}
	},
	"a moment later": func(t *testing.T, path, text string) {
		file, err := os.OpenFile(path, os.O_WRONLY, 0)
		if err != nil {
			t.Error(err)
			return
		}
		go func() {
			time.Sleep(30 * time.Millisecond)
			file.Truncate(0)
			file.WriteString(text)
			file.Close()
		}()
	},
}

// TestSavedAtTheLastMoment has an editor save the file between the last look at it
// and the exchange: what it saved must stand there afterwards.
func TestSavedAtTheLastMoment(t *testing.T) {
	for name, save := range saves {
		f, dir := tree(t)
		path := filepath.Join(dir, "notes.md")
		f.moment = func() { save(t, path, "saved") }
		if err := f.Replace(background, "notes.md", []byte("notes"), []byte("new")); !errors.Is(err, ErrChanged) {
			t.Errorf("%s: %v", name, err)
		}
		if got := content(t, path); got != "saved" {
			t.Errorf("%s: %q stands there", name, got)
		}
		noTemp(t, dir)
	}
}

// TestSavedAgainAndAgain has an editor save in both of the moments that there are:
// the last text stays.
func TestSavedAgainAndAgain(t *testing.T) {
	f, dir := tree(t)
	path := filepath.Join(dir, "notes.md")
	r, err := f.ready("notes.md", []byte("notes"), []byte("new"))
	if err != nil {
		t.Fatal(err)
	}
	put(t, path, "first")
	if err := r.exchange(); err != nil {
		t.Fatal(err)
	}
	put(t, path, "second") // over what the run put there
	if err := r.settle(); !errors.Is(err, ErrChanged) {
		t.Error(err)
	}
	r.discard()
	if got := content(t, path); got != "second" {
		t.Errorf("%q stands there", got)
	}
	noTemp(t, dir)
}
