package worksheet

import "testing"

// TestMayUse follows use lines through other worksheets, in circles too, and not
// into what is no worksheet.
func TestMayUse(t *testing.T) {
	files := folder{
		"a/near.md":   "```working\nuse \"../parts.md\"\n```\n",
		"a/far.md":    "> ```working\n> use \"near.md\" as n\n> ```\n",
		"a/round.md":  "use \"round.md\"\nuse \"around.md\"\n",
		"a/around.md": "use \"round.md\"\n",
		"a/escape.md": `use "p\u0061rts.md"`,
		"a/prose.md":  "We use \"../parts.md\" here.\n",
		"a/data.csv":  "use \"../parts.md\"\n",
		"a/gone.md":   "use \"none.md\"\n",
	}
	wanted := func(name string) bool { return name == "parts.md" }
	for name, want := range map[string]bool{
		"a/near.md": true, "a/far.md": true, "a/escape.md": true,
		"a/round.md": false, "a/prose.md": false, "a/data.csv": false, "a/gone.md": false, "none.md": false,
	} {
		if got := MayUse(files, name, wanted); got != want {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}
