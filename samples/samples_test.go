// Package samples_test keeps the samples worked: what stands on their pages is
// what the worksheets come to now.
package samples_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path"
	"testing"

	"inkwing/evaluate/message"
	"inkwing/worksheet"
)

// folder lets a run read the samples and nothing else.
type folder struct{ fs.FS }

func (f folder) Read(name string) ([]byte, error) { return fs.ReadFile(f.FS, name) }

func (f folder) List(name string) (names []string, err error) {
	entries, err := fs.ReadDir(f.FS, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names, err
}

// pages reads the Markdown files under the samples.
func pages(t *testing.T, files folder) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || path.Ext(name) != ".md" {
			return err
		}
		all[name], err = files.Read(name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 4 {
		t.Fatalf("only %d pages", len(all))
	}
	return all
}

// TestWorked wants every page to hold what it comes to, without an error and
// with every limit kept.
func TestWorked(t *testing.T) {
	files := folder{os.DirFS(".")}
	for name, text := range pages(t, files) {
		t.Run(name, func(t *testing.T) {
			r := worksheet.WorkText(t.Context(), files, name, text)
			kept(t, r)
			if r.Changed() {
				t.Errorf("is stale: go run ./cmd/inkwing run samples\n%s", firstDifference(r.Source, r.Output))
			}
		})
	}
}

// kept wants a page that was worked, has no error and breaks no limit.
func kept(t *testing.T, r *worksheet.Result) {
	t.Helper()
	source := message.NewSource(r.Path, r.Source)
	for _, d := range r.Refused {
		t.Error(message.Render(d, source))
	}
	if r.Report == nil || r.Blocks == 0 {
		t.Fatal("was not worked")
	}
	for _, d := range r.Report.Errors {
		t.Error(message.Render(d, source))
	}
	for _, l := range r.Report.Limits {
		if !l.Holds {
			t.Errorf("limit %s does not hold: %s against %s", l.Text, l.Value, l.Allowed)
		}
	}
}

// TestStable takes the regions out and works the page anew: the same bytes must
// come back. That they stay when it is run again is TestWorked.
func TestStable(t *testing.T) {
	files := folder{os.DirFS(".")}
	for name, text := range pages(t, files) {
		bare, refused := worksheet.Strip(t.Context(), name, text)
		if len(refused) > 0 {
			t.Fatalf("%s: %v", name, refused)
		}
		r := worksheet.WorkText(t.Context(), files, name, bare)
		if !bytes.Equal(r.Output, text) {
			t.Errorf("%s worked anew is another page:\n%s", name, firstDifference(text, r.Output))
		}
	}
}

// firstDifference shows the first line that differs.
func firstDifference(was, now []byte) string {
	a, b := bytes.Split(was, []byte("\n")), bytes.Split(now, []byte("\n"))
	for i := range a {
		if i >= len(b) || !bytes.Equal(a[i], b[i]) {
			var other []byte
			if i < len(b) {
				other = b[i]
			}
			return "- " + string(a[i]) + "\n+ " + string(other)
		}
	}
	return "only the ends differ"
}
