package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"inkwing/cmd/inkwing/disk"
)

// restless is a folder whose one file somebody saves during the first runs.
type restless struct {
	text  string
	saves int // how often it is saved yet
}

func (r *restless) Read(string) ([]byte, error) { return []byte(r.text), nil }

func (r *restless) List(string) ([]string, error) { return nil, nil }

func (r *restless) HasOtherNames(string) bool { return false }

func (r *restless) Leftovers(string) []string { return nil }

func (r *restless) Remove(context.Context, string, []byte) error { return nil }

func (r *restless) Update(_ context.Context, page disk.File, beside []disk.File) error {
	if len(beside) > 0 {
		panic("this worksheet has no charts")
	}
	if r.saves > 0 {
		r.saves--
		r.text = strings.Replace(r.text, "# ", "# new ", 1)
	}
	if r.text != string(page.Old) {
		return disk.ErrChanged
	}
	r.text = string(page.New)
	return nil
}

const journal = "# Lapwing\n\n```working\nU = 4 V\nW = 2 * U\n```\n"

// TestFileChanges holds that a run starts again from the new text, loses none of
// it, and gives up in the end.
func TestFileChanges(t *testing.T) {
	for _, verb := range []struct {
		name string
		work func(context.Context, *target) outcome
		from string
	}{
		{"run", (&paths{}).runOne, journal},
		{"strip", (&paths{}).stripOne, journal + "\n<!-- worked: rewritten by every run -->\n\nTable `w`:\n\n<!-- /worked -->\n"},
	} {
		for saves, ok := range map[int]bool{0: true, 1: true, tries - 1: true, tries: false} {
			f := &restless{verb.from, saves}
			o := verb.work(context.Background(), &target{shown: "notes.md", name: "notes.md", folder: f})
			if (o.err == nil) != ok || o.written != ok {
				t.Errorf("%s, %d saves: written %v, %v", verb.name, saves, o.written, o.err)
			}
			if !ok && !errors.Is(o.err, errBusy) {
				t.Errorf("%s: %v", verb.name, o.err)
			}
			if got := strings.Count(f.text, "new "); got != saves {
				t.Errorf("%s: %d of %d saves left in %q", verb.name, got, saves, f.text)
			}
		}
	}
}

// TestSafeNames holds that no name gets onto the terminal as it is.
func TestSafeNames(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, name := range []string{"a\x1b[31m.md", "b\u202e.md", "c\n::error::.md", "d\u009b.md", "e\u2028.md", "f\u200b.md", "g\u061c.md", "h\U000e0041.md", "i\u00ad.md"} {
		if err := os.WriteFile(name, []byte("```working\nU = 12 V/R # \u200b\U000e0041\nW = 12 V/R \"\u061c\"\nlimit 3 V < 2 V \"a\u200bb\"\n```\n"), 0o644); err != nil {
			t.Logf("%q cannot be a name here: %v", name, err)
		}
	}
	for _, args := range [][]string{{"run"}, {"check"}, {"run", "--diff"}, {"strip"}, {"run", "none\x1b.md"}, {"--\x1b"}, {"explain", "\x1b"}, {"\x1b"}} {
		var out strings.Builder
		run(args, strings.NewReader(""), &out, &out)
		if i := strings.IndexAny(out.String(), "\x1b\u202e\u009b\u2028\u200b\u061c\U000e0041\u00ad"); i >= 0 || strings.Contains(out.String(), "\n::") {
			t.Errorf("%q prints %q", args, out.String())
		}
	}
}

// thousand writes a folder of small worksheets.
func thousand(b *testing.B) string {
	dir := b.TempDir()
	for i := range 1000 {
		text := fmt.Sprintf("# Page %d\n\nText.\n\n```working\nU%d = %d V\nW = 2 * U%d\nE [J] = 1/2 * 3 F * W^2\n```\n\nMore text.\n", i, i, i+1, i)
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("page%04d.md", i)), []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	return dir
}

// BenchmarkThousandFiles works a folder of small worksheets that are fresh.
func BenchmarkThousandFiles(b *testing.B) {
	dir := thousand(b)
	if got := run([]string{"run", dir}, strings.NewReader(""), io.Discard, io.Discard); got != fine {
		b.Fatalf("exit code %d", got)
	}
	b.ReportAllocs()
	for b.Loop() {
		if got := run([]string{"run", dir}, strings.NewReader(""), io.Discard, io.Discard); got != fine {
			b.Fatalf("exit code %d", got)
		}
	}
}
