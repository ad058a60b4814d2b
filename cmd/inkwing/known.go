package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"inkwing/cmd/inkwing/disk"
	"inkwing/evaluate"
	"inkwing/worksheet"
)

// known is what earlier runs found out, so that a run need not work the pages beside it
// to say that they are still right: a file in the builder's cache folder with digests and
// nothing else, no name, no path, no text. Each is of this very program and of all that a
// page stands on, see [worksheet.Basis]: the page was left as it was when that was worked.
// What cannot be read, is spoilt or somebody else's is as none, and so is no file.
type known struct {
	folder  *disk.Folder // nil where nothing can be kept
	program string
	has     map[entry]bool
	order   []entry // the last one learnt stands last
	learnt  int     // of them, in this run
}

// An entry is a digest cut to what no two will share by chance.
type entry [16]byte

// mostKnown is how many are kept.
const mostKnown = 4096

// knownFile is the name of the file, knownHead how it begins.
const (
	knownFile = "fresh-pages"
	knownHead = "inkwing: digests of pages that were fresh; this file may be deleted\n"
)

// openKnown reads what is known: from the folder that INKWING_CACHE names, else from
// inkwing in the user's cache folder. INKWING_CACHE=off keeps nothing.
func openKnown(getenv func(string) string) *known {
	k := &known{has: map[entry]bool{}}
	dir := getenv("INKWING_CACHE")
	if dir == "" {
		base, err := os.UserCacheDir()
		if err != nil {
			return k
		}
		dir = filepath.Join(base, "inkwing")
	}
	program, err := thisProgram()
	if dir == "off" || err != nil {
		return k
	}
	if k.program = program; !filepath.IsAbs(dir) {
		return k
	}
	if k.folder, err = disk.OpenOwn(dir); err != nil {
		return k
	}
	_, k.order, err = k.read()
	if err != nil {
		k.close()
	}
	for _, e := range k.order {
		k.has[e] = true
	}
	return k
}

// thisProgram tells this program from every other build: what it was built from, and the
// size and time of its file, since a build may be of what was not committed.
func thisProgram() (string, error) {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "", errors.New("of no known build")
	}
	at, err := os.Executable()
	if err != nil {
		return "", err
	}
	file, err := os.Stat(at)
	if err != nil {
		return "", err
	}
	return fmt.Sprint(built(), info, file.Size(), file.ModTime().UnixNano()), nil
}

var errForeign = errors.New("is somebody else's file")

// read gives what the file holds: its bytes, nil for none, and the entries in it, none of
// a spoilt one.
func (k *known) read() (text []byte, list []entry, err error) {
	if !k.folder.Exists(knownFile) {
		return nil, nil, nil
	}
	if text, err = k.folder.Read(knownFile); err != nil {
		return nil, nil, err
	}
	rest, ours := bytes.CutPrefix(text, []byte(knownHead))
	if !ours {
		return nil, nil, errForeign
	}
	if len(rest)%len(entry{}) != 0 || len(rest)/len(entry{}) > mostKnown {
		return text, nil, nil // spoilt
	}
	for e := range slices.Chunk(rest, len(entry{})) {
		list = append(list, entry(e))
	}
	return text, list, nil
}

// close forgets where anything could be kept.
func (k *known) close() {
	if k.folder != nil {
		k.folder.Close()
		k.folder = nil
	}
}

// of is the entry of a digest, of one kind.
func (k *known) of(kind string, d evaluate.Digest) entry {
	sum := sha256.Sum256([]byte(strings.Join([]string{k.program, kind, string(d[:])}, "\x00")))
	return entry(sum[:len(entry{})])
}

// The kinds of what is known.
const (
	pageFresh    = "page"    // as it stands, with all that it uses
	bearingFresh = "bearing" // with what bears on it, where all that it uses is whole
	sheetWhole   = "whole"   // everything in a sheet can be evaluated
)

func (k *known) add(kind string, d evaluate.Digest) {
	if e := k.of(kind, d); !k.has[e] {
		k.has[e] = true
		k.order = append(k.order, e)
		k.learnt++
	}
}

// learn takes up what was worked and found to be fresh, or was just written.
func (k *known) learn(page string, b *worksheet.Basis) {
	if b == nil || k.folder == nil {
		return
	}
	if b.Whole[page] {
		k.add(sheetWhole, b.Own)
	}
	if len(b.Files) == 0 {
		return // it uses nothing, and so nobody asks whether it is stale
	}
	for _, name := range slices.Sorted(maps.Keys(b.Sheets)) { // the oldest go first: in one order
		if b.Whole[name] {
			k.add(sheetWhole, b.Sheets[name])
		}
	}
	k.add(pageFresh, b.Page)
	if b.IsWhole() {
		k.add(bearingFresh, b.Bearing)
	}
}

// isFresh reports whether a page is known to be right as it stands.
func (k *known) isFresh(b *worksheet.Basis) bool {
	if b == nil || k.folder == nil {
		return false
	}
	if k.has[k.of(pageFresh, b.Page)] {
		return true
	}
	for _, d := range b.Sheets {
		if !k.has[k.of(sheetWhole, d)] {
			return false
		}
	}
	return k.has[k.of(bearingFresh, b.Bearing)]
}

// save keeps what was learnt, beside what other runs have learnt meanwhile.
func (k *known) save(ctx context.Context) {
	if k.folder == nil {
		return
	}
	defer k.close()
	if k.learnt == 0 {
		return
	}
	for _, name := range k.folder.Leftovers(".") {
		if text, err := k.folder.Read(name); err == nil {
			_ = k.folder.Remove(ctx, name, text)
		}
	}
	learnt := k.order[len(k.order)-k.learnt:]
	for range tries {
		text, list, err := k.read()
		if err != nil || !errors.Is(k.folder.Put(ctx, knownFile, text, knownText(list, learnt)), disk.ErrChanged) {
			return
		}
	}
}

// knownText is the file with some more entries, and without the oldest where they are too
// many.
func knownText(list, learnt []entry) []byte {
	again := map[entry]bool{}
	for _, e := range learnt {
		again[e] = true
	}
	out := append(slices.DeleteFunc(slices.Clone(list), func(e entry) bool { return again[e] }), learnt...)
	text := []byte(knownHead)
	for _, e := range out[max(0, len(out)-mostKnown):] {
		text = append(text, e[:]...)
	}
	return text
}
