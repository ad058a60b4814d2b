package samples_test

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"inkwing/worksheet"
)

// TestReadme works the worksheet of ten lines in the README: each line of the region
// that stands under it there comes out, but for where … says that it goes on.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(text), "````markdown\n")
	sheet, after, _ := strings.Cut(after, "````")
	_, after, _ = strings.Cut(after, "```markdown\n")
	shown, _, found := strings.Cut(after, "```")
	if !found {
		t.Fatal("the worksheet and its region are not in the README any more")
	}
	r := worksheet.WorkText(t.Context(), nil, "notes.md", []byte(sheet))
	for _, line := range strings.Split(shown, "\n") {
		if begin := strings.TrimSuffix(line, " …"); !bytes.Contains(r.Output, []byte("\n"+begin)) {
			t.Errorf("the README shows what does not come out: %s", line)
		}
	}
}

// named are the tests that a line of the README names, and its scripts.
var named = regexp.MustCompile("`((?:Test|Fuzz|Benchmark)\\w+|\\.ci/\\w+)`")

// TestSecurity holds that each line on what a stranger's page cannot do names a test, and
// that there is one of that name.
func TestSecurity(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(text), "\n## SECURITY\n")
	section, _, _ = strings.Cut(section, "\n## ")
	tests, lines := testsOf(t, ".."), 0
	for line := range strings.Lines(section) {
		names := named.FindAllStringSubmatch(line, -1)
		if strings.HasPrefix(line, "| ") && !strings.HasPrefix(line, "| what ") && !strings.HasPrefix(line, "| :") {
			if lines++; len(names) == 0 {
				t.Errorf("no test: %s", line)
			}
		}
		for _, name := range names {
			if _, err := os.Stat("../" + name[1]); !tests[name[1]] && err != nil {
				t.Errorf("there is no %s: %s", name[1], line)
			}
		}
	}
	if lines < 10 {
		t.Errorf("%d lines", lines)
	}
}

// testsOf are the names of all tests below a folder.
func testsOf(t *testing.T, folder string) map[string]bool {
	t.Helper()
	names, begins := map[string]bool{}, regexp.MustCompile(`(?m)^func ((?:Test|Fuzz|Benchmark)\w+)\(`)
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, m := range begins.FindAllSubmatch(text, -1) {
			names[string(m[1])] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}
