package main

import (
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// FuzzPage takes any bytes for a page, and any for the data beside it, through the
// whole program: it is worked, or refused and left as it is; a second run changes
// nothing; strip takes out what came in; nothing else in the folder or beside it is
// touched, nothing is left behind, and nothing misleads the terminal. The corpus is
// in testdata/fuzz/FuzzPage; `.ci/soak` goes on from it for an hour.
func FuzzPage(f *testing.F) {
	lastWords(f)
	f.Add([]byte(charted), []byte("a [V],b\n1,2\n"))
	f.Add([]byte("```working\nuse \"data.csv\" as d\nx = sum(d.a)\n```\n\n`x [V] = ?`\n"), []byte("a [V];b\n1,5;2\n"))
	f.Add([]byte("> - ```working\n>   \ta = 1 V\n>  \t```\n<!-- worked -->\n<!-- /worked -->\n"), []byte("\ufeffa\n\"x\ny\"\n"))
	f.Fuzz(func(t *testing.T, page, data []byte) {
		top := t.TempDir()
		dir := filepath.Join(top, "notes")
		if err := os.Mkdir(dir, 0o777); err != nil {
			t.Fatal(err)
		}
		for name, text := range map[string]string{"page.md": string(page), "data.csv": string(data), "../secret.md": "secret"} {
			write(t, filepath.Join(dir, name), text)
		}
		once, first := worksAndHolds(t, dir, page)
		if again, second := worksAndHolds(t, dir, once); string(again) != string(once) {
			t.Errorf("a second run makes %q of %q; the first said\n%s\nthe second\n%s", again, once, first, second)
		}
		says, _ := printed("strip", filepath.Join(dir, "page.md"))
		tame(t, says)
		want := map[string]string{"data.csv": string(data), "../secret.md": "secret"}
		for name, text := range want {
			if got := content(t, filepath.Join(dir, name)); got != text {
				t.Errorf("%s became %q", name, got)
			}
		}
		filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
			if strings.HasPrefix(d.Name(), ".inkwing-") {
				t.Errorf("%s is left behind", path)
			}
			return err
		})
	})
}

// lastWords has a fuzzing process say into a file of the folder $INKWING_SOAK why it ends:
// the engine says only that it did.
func lastWords(f *testing.F) {
	dir := os.Getenv("INKWING_SOAK")
	if dir == "" || flag.Lookup("test.fuzzworker").Value.String() != "true" {
		return
	}
	out, err := os.CreateTemp(dir, "process-*")
	if err == nil {
		os.Stderr = out
		err = debug.SetCrashOutput(out, debug.CrashOptions{})
	}
	if err != nil {
		f.Fatal(err)
	}
}

// worksAndHolds runs the page and gives what it holds then, and what the run said.
func worksAndHolds(t *testing.T, dir string, before []byte) (holds []byte, says string) {
	t.Helper()
	says, code := printed("run", filepath.Join(dir, "page.md"))
	tame(t, says)
	now := content(t, filepath.Join(dir, "page.md"))
	switch code {
	case fine, attention:
	case failed:
		if now != string(before) {
			t.Errorf("refused, and changed: %q", now)
		}
	default:
		t.Errorf("exit code %d: %s", code, says)
	}
	if strings.Contains(says, "in inkwing itself") {
		t.Error(says)
	}
	return []byte(now), says
}

// tame wants nothing in an output that a terminal would obey.
func tame(t *testing.T, says string) {
	t.Helper()
	if !utf8.ValidString(says) {
		t.Errorf("no UTF-8: %q", says)
	}
	for _, r := range says {
		if r != '\n' && (unicode.IsControl(r) || r == 0x202e || r == 0x200b || r == 0x061c || 0xe0000 <= r && r <= 0xe007f) {
			t.Errorf("%U in %q", r, says)
			return
		}
	}
}
