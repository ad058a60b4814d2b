package desk_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"inkwing/worksheet/reading"
)

// TestList says of each page how it stands, and follows what comes, changes and goes.
func TestList(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	file(t, dir, "plain.md", "# No worksheet\n")
	d := serve(t, dir)
	if got := ask(t, "GET", d.Address(), "", nil); !strings.Contains(text(t, got), `href=page/a.md`) {
		t.Error("a.md is not listed")
	}
	events := hear(t, d)
	stands := func(want string) *reading.Answer {
		t.Helper()
		for range 400 {
			a := answer(t, d, "", "")
			if all := fmt.Sprint(a.Sections); strings.Contains(all, want) && !strings.Contains(all, "being worked") {
				return a
			}
			time.Sleep(25 * time.Millisecond)
		}
		t.Fatalf("the list never says %q: %v", want, answer(t, d, "", "").Sections)
		return nil
	}
	if a := stands("Everything is worked"); len(a.Sections) != 2 || !strings.Contains(a.Sections[1].HTML, "Glider") {
		t.Errorf("listed: %q", ids(a))
	}
	file(t, dir, "sub/b 1.md", "# Bee\n\n```working\nx = 3 V\nlimit x < 2 V\n```\n")
	if a := stands("1 limit is broken"); !strings.Contains(html(a, "p-sub/b 1.md"), `href="page/sub/b%201.md"`) {
		t.Errorf("listed: %v", a.Sections)
	}
	next(t, events, "")
	file(t, dir, "sub/b 1.md", "# Bee\n\n```working\nx = 1 V\nlimit x < 2 V\n```\n")
	stands("Its one limit holds")
	file(t, dir, "sub/b 1.md", "# Bee\n\n```working\nx = 1 V +\n```\n")
	stands("1 line is not worked")
	file(t, dir, "sub/b 1.md", "<!-- worked -->\n\n```working\nx = 1 V\n```\n")
	stands("not worked")
	if err := os.Rename(filepath.Join(dir, "sub/b 1.md"), filepath.Join(dir, "c.md")); err != nil {
		t.Fatal(err)
	}
	file(t, dir, "<b> & \"c\".md", two)
	if a := stands("&lt;b&gt;"); !slices.Contains(a.Order, "p-<b> & \"c\".md") {
		t.Errorf("an odd name: %q", a.Order) // the id of an element as scripts see it
	}
	if err := os.Remove(filepath.Join(dir, "<b> & \"c\".md")); err != nil {
		t.Fatal(err)
	}
	for len(answer(t, d, "", "").Order) > 3 {
		time.Sleep(10 * time.Millisecond)
	}
	if a := stands("c.md"); len(a.Sections) != 3 || html(a, "p-sub/b 1.md") != "" {
		t.Errorf("renamed: %q", ids(a))
	}
}
