package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// charted is a page with a chart.
const charted = "# Lapwing\n\nIt is `W [V] = ?`.\n\n```working\nU = 4 V\nW = 2 * U\nt = vary U in 1 V to 4 V by 1 V: W\nchart \"Twice\": W [V] against U [V] from t\n```\n"

// printed works a command line and gives what it printed.
func printed(args ...string) (string, int) {
	var out strings.Builder
	code := run(args, strings.NewReader(""), &out, &out)
	return out.String(), code
}

// TestLitter clears what killed runs left behind, and keeps what somebody may miss.
func TestLitter(t *testing.T) {
	dir := t.TempDir()
	page := filepath.Join(dir, "notes.md")
	write(t, page, charted)
	if says, code := printed("run", page); code != fine {
		t.Fatal(says)
	}
	worked := content(t, page)
	drawn := content(t, filepath.Join(dir, "notes.charts", "twice.svg"))
	left := map[string]string{ // by the last letter of its name
		"A": charted, "B": worked[:len(worked)/2], "C": "", "D": worked, "E": strings.Replace(worked, "8 V", "9 V", -1),
		"X": strings.Replace(charted, "4 V", "5 V", 1), "Y": "somebody's own\n",
	}
	at := func(folder, letter string) string {
		return filepath.Join(dir, folder, ".inkwing-"+strings.Repeat("2", 25)+letter)
	}
	aged := func(path, text string) {
		write(t, path, text)
		if err := os.Chtimes(path, time.Time{}, time.Now().Add(-time.Hour)); err != nil {
			t.Fatal(err)
		}
	}
	for letter, text := range left {
		aged(at("", letter), text)
	}
	for letter, text := range map[string]string{"A": drawn, "B": drawn[:300], "C": "<svg"} {
		aged(at("notes.charts", letter), text)
	}
	aged(at("notes.charts", "Z"), "<svg>mine</svg>\n")
	write(t, at("", "N"), charted) // of a run that goes on
	says, code := printed("run", page)
	if code != fine || strings.Count(says, "was left behind") != 2 {
		t.Errorf("exit code %d: %s", code, says)
	}
	var stays []string
	filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if strings.HasPrefix(d.Name(), ".inkwing-") {
			stays = append(stays, path[len(path)-1:])
		}
		return err
	})
	if got := strings.Join(stays, ""); got != "NXYZ" {
		t.Errorf("%s stay", got)
	}
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestRunAndStripMeet lets both write one page at once: whichever ends last, what
// the page shows is there.
func TestRunAndStripMeet(t *testing.T) {
	dir := t.TempDir()
	page := filepath.Join(dir, "notes.md")
	for i := range 60 {
		write(t, page, strings.Replace(charted, "4 V", fmt.Sprint(i+3, " V"), -1))
		var both sync.WaitGroup
		for _, verb := range []string{"run", "strip", "run"} {
			both.Go(func() { run([]string{verb, page}, strings.NewReader(""), io.Discard, io.Discard) })
		}
		both.Wait()
		_, err := os.Stat(filepath.Join(dir, "notes.charts", "twice.svg"))
		if shown := strings.Contains(content(t, page), "twice.svg"); shown != (err == nil) {
			t.Fatalf("round %d: the chart is shown %v, and %v", i, shown, err)
		}
	}
}

// TestNoChartsBesideRefused writes no chart for a page that cannot be written.
func TestNoChartsBesideRefused(t *testing.T) {
	dir := t.TempDir()
	page := filepath.Join(dir, "notes.md")
	write(t, page, charted)
	if err := os.Chmod(page, 0o444); err != nil {
		t.Fatal(err)
	}
	if says, code := printed("run", page); code != failed || !strings.Contains(says, "is read-only") {
		t.Errorf("exit code %d: %s", code, says)
	}
	if _, err := os.Lstat(filepath.Join(dir, "notes.charts")); err == nil {
		t.Error("charts were written")
	}
}

// TestHardLinkTold says that another name keeps the old text.
func TestHardLinkTold(t *testing.T) {
	dir := t.TempDir()
	page := filepath.Join(dir, "notes.md")
	write(t, page, charted)
	if err := os.Link(page, filepath.Join(dir, "other.txt")); err != nil {
		t.Logf("no hard links here: %v", err)
		return
	}
	if says, _ := printed("run", page); strings.Count(says, "has another name on this disk") != 1 {
		t.Error(says)
	}
	if says, _ := printed("run", page); strings.Contains(says, "another name") {
		t.Error(says)
	}
}

// TestManyLeftOver has one run take away more left-over charts than are held at a time:
// the next finds nothing to do.
func TestManyLeftOver(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "notes.md"), "```working\na = 1 V\n```\n")
	charts := filepath.Join(dir, "notes.charts")
	if err := os.Mkdir(charts, 0o777); err != nil {
		t.Fatal(err)
	}
	const head = "<svg xmlns=\"http://www.w3.org/2000/svg\">\n\n\n<metadata>inkwing chart: rewritten by every run</metadata>\n"
	write(t, filepath.Join(charts, "old0.svg"), head+strings.Repeat("x\n", 7<<20)+"</svg>\n")
	for i := range 9 { // 140 MiB by their names
		if err := os.Link(filepath.Join(charts, "old0.svg"), filepath.Join(charts, fmt.Sprintf("old%d.svg", i+1))); err != nil {
			t.Fatal(err)
		}
	}
	says, code := printed("run", filepath.Join(dir, "notes.md"))
	if code != fine || strings.Count(says, "removed") != 10 {
		t.Errorf("exit code %d, says %s", code, says)
	}
	if left, err := os.ReadDir(charts); err == nil {
		t.Errorf("%d files are left", len(left))
	}
	if says, code := printed("check", filepath.Join(dir, "notes.md")); code != fine || !strings.Contains(says, "fresh") {
		t.Errorf("exit code %d, says %s", code, says)
	}
}
