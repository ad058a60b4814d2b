package evaluate

import (
	"context"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/syntax"
)

// TestWords works the example of every word of the language, as explain prints
// it.
func TestWords(t *testing.T) {
	files := kit.Sheets{
		"parts.md":    kit.Block("parts.md", "strap = 3 g"),
		"rundown.csv": {Name: "rundown.csv", Data: true, Tables: []*syntax.Table{kit.Table("rundown", []string{"t", "U"}, []string{"0", "10"}, []string{"1", "9"})}},
	}
	for _, w := range syntax.Words() {
		s := kit.Block("x.md", w.Example)
		s.Tables = []*syntax.Table{kit.Table("cells", []string{"cell", "mass [g]"}, []string{"B50", "12"})}
		for _, e := range Work(context.Background(), s, files).Errors {
			t.Errorf("%s: %s | %s\n%s", w.Name, e.Summary, e.Hint, w.Example)
		}
		name := w.Name
		if name != "definition" && name != "function" && name != "table" && !strings.Contains(w.Example, name) {
			t.Errorf("%s: the example does not show it", name)
		}
		if w.Form == "" || !strings.HasSuffix(w.Summary, ".") {
			t.Errorf("%s: %q %q", name, w.Form, w.Summary)
		}
	}
}
