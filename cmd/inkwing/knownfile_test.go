package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"inkwing/evaluate"
	"inkwing/worksheet"
)

// standing is a page that stands on made-up digests.
func standing(number int) *worksheet.Basis {
	var d evaluate.Digest
	copy(d[:], fmt.Sprint(number))
	return &worksheet.Basis{Page: d, Bearing: d, Own: d, Files: []string{"log.csv"}, Whole: map[string]bool{"a.md": true}}
}

// keep learns some pages and saves them in a folder.
func keep(t *testing.T, dir string, numbers ...int) {
	k := openKnown(cacheIn(dir))
	for _, n := range numbers {
		k.learn("a.md", standing(n))
	}
	k.save(t.Context())
}

// knows reports whether a page was kept in a folder.
func knows(dir string, number int) bool {
	k := openKnown(cacheIn(dir))
	defer k.close()
	return k.isFresh(standing(number))
}

// TestKnownKept wants what was learnt to be there for the next run, in a folder that nobody
// else can look into, without a word of any page.
func TestKnownKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache", "inkwing")
	keep(t, dir, 1, 2)
	if !knows(dir, 1) || !knows(dir, 2) || knows(dir, 3) {
		t.Error("other pages are known than were learnt")
	}
	info, err := os.Stat(dir)
	if err != nil || info.Mode().Perm()&0o077 != 0 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	text, err := os.ReadFile(filepath.Join(dir, knownFile))
	if err != nil || len(text) != len(knownHead)+6*len(entry{}) || bytes.Contains(text, []byte(".md")) {
		t.Errorf("%d bytes, %v", len(text), err)
	}
	keep(t, dir, 2, 1)
	if again, err := os.ReadFile(filepath.Join(dir, knownFile)); err != nil || !bytes.Equal(again, text) {
		t.Error("written though nothing was learnt")
	}
}

// TestKnownOfOtherProgram believes nothing that another build has found out.
func TestKnownOfOtherProgram(t *testing.T) {
	dir := t.TempDir()
	keep(t, dir, 1)
	k := openKnown(cacheIn(dir))
	defer k.close()
	if k.program += "-anew"; k.isFresh(standing(1)) {
		t.Error("what another program knows is believed")
	}
}

// TestKnownSpoilt wants a file that is spoilt to be as none, and to be written anew; one that is
// none of ours is as none, too, and stays.
func TestKnownSpoilt(t *testing.T) {
	for _, c := range []struct {
		name, text string
		ours       bool
	}{
		{"cut", knownHead + "0123456789", true},
		{"too long", knownHead + string(make([]byte, (mostKnown+1)*len(entry{}))), true},
		{"empty", "", false}, {"foreign", "a letter\n", false}, {"beginning", knownHead[:10], false},
	} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, knownFile), []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		if knows(dir, 1) {
			t.Errorf("%s: believed", c.name)
		}
		keep(t, dir, 1)
		got, err := os.ReadFile(filepath.Join(dir, knownFile))
		if err != nil || (string(got) == c.text) == c.ours || knows(dir, 1) != c.ours {
			t.Errorf("%s: %d bytes where there were %d, %v", c.name, len(got), len(c.text), err)
		}
	}
}

// TestKnownNowhere keeps nothing where there is no place for it, and says nothing of it.
func TestKnownNowhere(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(dir, knownFile), 0o700); err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{"off", "a/relative/path", file, filepath.Join(file, "below"), dir, "/proc/none", filepath.Join(dir, "nul\x00")} {
		keep(t, at, 1)
		if knows(at, 1) {
			t.Errorf("kept at %q", at)
		}
	}
	if _, err := os.Stat("off"); err == nil {
		t.Error("made a folder named off")
	}
}

// TestKnownBounded forgets the oldest.
func TestKnownBounded(t *testing.T) {
	dir := t.TempDir()
	for begin := 0; begin < 3*mostKnown/2; begin += mostKnown / 4 {
		k := openKnown(cacheIn(dir))
		for i := range mostKnown / 4 {
			var d evaluate.Digest
			copy(d[:], fmt.Sprint(begin+i))
			k.add(sheetWhole, d)
		}
		k.save(t.Context())
	}
	k := openKnown(cacheIn(dir))
	defer k.close()
	var old, young evaluate.Digest
	copy(old[:], fmt.Sprint(mostKnown/2-1))
	copy(young[:], fmt.Sprint(mostKnown/2))
	if len(k.order) != mostKnown || k.has[k.of(sheetWhole, old)] || !k.has[k.of(sheetWhole, young)] {
		t.Errorf("%d are known", len(k.order))
	}
}

// TestKnownSideBySide lets many runs learn at once: the file stays whole, and nothing but what
// came too often in each other's way is lost.
func TestKnownSideBySide(t *testing.T) {
	dir := t.TempDir()
	keep(t, dir, 0)
	var group sync.WaitGroup
	for i := range 8 {
		group.Go(func() {
			for j := range 8 {
				keep(t, dir, 1+8*i+j)
			}
		})
	}
	group.Wait()
	k := openKnown(cacheIn(dir))
	defer k.close()
	if _, list, err := k.read(); err != nil || len(list)%3 != 0 || len(list) < 3*16 || !knows(dir, 0) {
		t.Errorf("%d are known, %v", len(list), err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".inkwing-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}
