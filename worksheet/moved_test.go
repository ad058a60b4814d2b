package worksheet

import (
	"strings"
	"testing"
)

// TestMoved follows every line of a page, of either line ends, through a run
// that puts regions in and changes an inline value.
func TestMoved(t *testing.T) {
	page := "one `a [V] = ?`\n\n```working\na = 1 V * 2\n```\n\ntwo\n\n> ```working\n> b = 2 * a\n> ```\n\nthree"
	for _, text := range []string{page, strings.ReplaceAll(page, "\n", "\r\n")} {
		r := WorkText(t.Context(), nil, "x.md", []byte(text))
		now := string(r.Output)
		moved := Moved(r.Source, r.Output)
		if now == text || moved == nil {
			t.Fatal(now)
		}
		for _, here := range []string{"one", "a = 1", "two", "b = 2", "three"} {
			if got := moved(strings.Index(text, here)); !strings.HasPrefix(now[got:], here) {
				t.Errorf("%q: at %q", here, now[got:])
			}
		}
		if back := Moved(r.Output, r.Source); back == nil || back(strings.Index(now, "three")) != strings.Index(text, "three") {
			t.Error("not back")
		}
		if moved(len(text)) != len(now) || moved(0) != 0 {
			t.Error("the ends")
		}
	}
	if Moved([]byte("a\nb"), []byte("a\nx\nb")) != nil {
		t.Error("somebody else's change is followed")
	}
}
