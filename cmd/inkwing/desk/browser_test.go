//go:build browser

package desk_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"inkwing/cmd/internal/browser"
)

// samples is a copy of the samples.
func samples(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../../samples")); err != nil {
		t.Fatal(err)
	}
	return dir
}

// keepPicture writes what a reader sees into the folder $PICTURES, if there is one.
func keepPicture(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	if dir := os.Getenv("PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name+".png"), tab.View(), 0o644); err != nil {
			t.Error(err)
		}
	}
}

// wait waits until an expression holds in a tab.
func wait(t *testing.T, tab *browser.Tab, expression string) {
	t.Helper()
	for range 1200 {
		if tab.Holds(expression) {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	t.Fatalf("never: %s\ntroubles: %q\nsays: %q", expression, tab.Troubles(), browser.Eval[string](tab, `document.querySelector("#page-tray")?.innerText + " | " + document.querySelector("#page-notice")?.innerText + " | " + document.querySelector("main").innerText.slice(0, 600)`))
}

// settled holds that nothing went wrong in a tab, and that it asked nobody else.
func settled(t *testing.T, tab *browser.Tab, address string) {
	t.Helper()
	if got := tab.Troubles(); len(got) > 0 {
		t.Errorf("troubles: %q", got)
	}
	for _, q := range tab.Requests() {
		if !strings.HasPrefix(q, address) && q != address {
			t.Errorf("it asked for %s", q)
		}
	}
}

// readable holds that nothing keeps readers out, as axe-core sees it.
func readable(t *testing.T, tab *browser.Tab) {
	t.Helper()
	for _, v := range tab.Axe() {
		t.Errorf("%s: %s", v.ID, v.Help)
		for _, n := range v.Nodes[:min(len(v.Nodes), 3)] {
			t.Logf("  %s\n  %s", n.HTML, n.Summary)
		}
	}
}

// write saves a field as typing does.
func write(tab *browser.Tab, field, text string) {
	browser.Eval[bool](tab, `(() => { const f = document.querySelector(`+quoted(field)+`); f.value = `+quoted(text)+`; f.dispatchEvent(new Event("input", {bubbles: true})); return true })()`)
}

func quoted(text string) string { return "\"" + strings.ReplaceAll(text, `"`, `\"`) + "\"" }

func knob(name string) string { return `[data-name="` + name + `"] > .knob` }

var views = map[string]browser.View{"laptop": browser.Laptop, "phone": browser.Phone, "dark": {Width: 1280, Height: 800, Dark: true}}
