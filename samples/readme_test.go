package samples_test

import (
	"bytes"
	"os"
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
