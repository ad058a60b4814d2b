package samples_test

import (
	"bytes"
	"os"
	"path"
	"strings"
	"testing"

	"inkwing/evaluate/message"
	"inkwing/worksheet"
)

// TestMistake makes the mistake that the tutorial asks for, and wants the message
// that stands on its page.
func TestMistake(t *testing.T) {
	files := folder{os.DirFS(".")}
	name := "first/5-mistake.md"
	text, err := files.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	wrong := bytes.Replace(text, []byte("V^2 / R"), []byte("V / R"), 1)
	r := worksheet.WorkText(t.Context(), files, name, wrong)
	if len(r.Report.Errors) != 1 {
		t.Fatalf("%d errors", len(r.Report.Errors))
	}
	said := message.Style{Level: "error:"}.Render(r.Report.Errors[0], message.NewSource(name, wrong))
	said = strings.Replace(said, name, path.Base(name), 1)
	if !strings.Contains(string(text), "```text\n"+said+"```\n") {
		t.Errorf("the page does not show what is said:\n%s", said)
	}
	if !strings.Contains(string(r.Output), "`P_lost [W] = ?`") {
		t.Error("a wrong number is left standing")
	}
}
