package worksheet

import (
	"strings"
	"testing"
)

// TestPageGathers proves that a page shows what a search finds now, whatever stands
// in the region of the Markdown, and a rule that cannot be read with what is wrong.
func TestPageGathers(t *testing.T) {
	files := folder{"pack/notes.md": "# Pack\n\n```working\nV_full [V] = 12.5 V\n```\n"}
	text := "# All\n\n```gather\nquantity where name == \"V_full\"\n  from \"pack\"\n  columns journal, value\n  units V\n```\n\n" +
		"<!-- worked: rewritten by every run -->\n\n| journal | `value [V]` |\n| :-- | --: |\n| pack/notes.md | 99.9 |\n\n<!-- /worked -->\n\n" +
		"- ```keeping\n  every wing: value > 1\n  ```\n"
	made, refused := Page(t.Context(), files, "all.md", []byte(text), nil)
	if len(refused) > 0 {
		t.Fatal(refused)
	}
	var all strings.Builder
	for _, s := range made.Sections {
		all.WriteString(s.HTML)
	}
	for _, want := range []string{"12.5", "pack/notes.md", "quantity where name", "every wing", "Not worked"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("without %q in\n%s", want, all.String())
		}
	}
	if strings.Contains(all.String(), "99.9") {
		t.Error("the page shows what stood in the region")
	}
	if len(made.State.Failed) != 1 {
		t.Errorf("%d failed lines are told, want 1", len(made.State.Failed))
	}
}
