package page_test

import (
	"strings"
	"testing"

	"inkwing/worksheet/page"
)

// TestDiffer finds what a reader would read otherwise, and where.
func TestDiffer(t *testing.T) {
	const file = `<html><body><nav>x</nav><main><header id="top"><h1>A</h1></header><p id="q-E_full">E <b class="kept">1.5 Wh</b> &lt;<a href="#top">up</a> <svg><rect width="4"/></svg></p></main><footer>v1</footer></body>`
	for name, c := range map[string]struct{ old, new, where, shown, worked string }{
		"alike":       {"", "", "", "", ""},
		"the foot":    {"v1", "v2", "", "", ""},
		"blanks":      {"E <b", "E\n<b", "", "", ""},
		"a number":    {"1.5", "2.5", "E_full", "1.5 Wh", "2.5 Wh"},
		"a title":     {"<h1>A", "<h1>B", "#top", "A", "B"},
		"a link":      {`href="#top"`, `href="http://x"`, "E_full", "href=#top", "href=http://x"},
		"a bar":       {`width="4"`, `width="5"`, "E_full", "width=4", "width=5"},
		"a verdict":   {`"kept"`, `"broken"`, "E_full", "class=kept", "class=broken"},
		"left out":    {">up<", "><", "E_full", "up", "width=4"},
		"more at end": {"</svg>", "</svg> end", "E_full", "", "end"},
	} {
		d, differ := page.Differ([]byte(file), []byte(strings.Replace(file, c.old, c.new, 1)))
		want := page.Difference{Where: c.where, Old: c.shown, New: c.worked}
		if differ != (c.shown+c.worked != "") || differ && d != want {
			t.Errorf("%s: %v %+v, want %+v", name, differ, d, want)
		}
	}
	if _, differ := page.Differ([]byte(file), []byte("")); !differ {
		t.Error("an empty file says the same")
	}
	if _, differ := page.Differ([]byte(file), []byte(strings.Replace(file, "</main>", "", 1))); !differ {
		t.Error("what stands behind the main part says the same")
	}
}
