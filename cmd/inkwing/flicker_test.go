package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// processes is how many of them must say the same: .ci/run asks for 20.
var processes = flag.Int("processes", 2, "in how many processes TestNoFlicker works everything")

// TestNoFlicker works all samples, all conformance cases and pages on which names
// are equally near, each in a process of its own time and again: maps are walked in
// another order in each, and none of that may reach a byte. None may be given up
// either, which would say nothing of its bytes.
func TestNoFlicker(t *testing.T) {
	if dir := os.Getenv("FLICKER_TEST"); dir != "" {
		workTime = time.Hour // however busy the machine is
		var out bytes.Buffer
		run([]string{"run", "--diff", dir, filepath.Join("..", "..", "samples")}, strings.NewReader(""), &out, &out)
		fmt.Print(out.String())
		return
	}
	dir := t.TempDir()
	if n := writeCases(t, dir); n < 300 {
		t.Fatalf("only %d cases", n)
	}
	says := make([]string, *processes)
	var both sync.WaitGroup
	for half := range 2 { // side by side: much of one is not
		both.Go(func() {
			for i := half; i < len(says); i += 2 {
				c := exec.Command(os.Args[0], "-test.run", "^TestNoFlicker$")
				c.Env = append(os.Environ(), "FLICKER_TEST="+dir)
				out, err := c.Output()
				if says[i] = string(out); err != nil {
					t.Error(err)
				}
			}
		})
	}
	both.Wait()
	for i, s := range says {
		if at := strings.Index(s, "was not worked"); at >= 0 {
			t.Errorf("process %d: %.200s", i+1, s[at:])
		}
		if one, other := apart(says[0], s); one != other {
			t.Errorf("process 1 said %q, process %d %q", one, i+1, other)
		}
	}
}

// apart are the first lines in which two texts differ; empty for none.
func apart(a, b string) (string, string) {
	as, bs := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range max(len(as), len(bs)) {
		switch {
		case i >= len(as):
			return "nothing more", bs[i]
		case i >= len(bs):
			return as[i], "nothing more"
		case as[i] != bs[i]:
			return as[i], bs[i]
		}
	}
	return "", ""
}

// writeCases makes a page of every case, and some more.
func writeCases(t *testing.T, dir string) (n int) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "..", "testdata", "conformance", "*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if filepath.Ext(name) == ".md" {
			continue
		}
		for _, c := range strings.Split("\n"+content(t, name), "\n== ")[1:] {
			_, block, _ := strings.Cut(c, "\n")
			block, _, _ = strings.Cut(block, "\n--")
			write(t, filepath.Join(dir, fmt.Sprintf("case%d.md", n)), "```working\n"+withoutAnswers(block)+"\n```\n")
			n++
		}
	}
	for name, text := range map[string]string{
		"near.md":   "`ab [V] = ?` `xa [V] = ?`\n\n```working\naa = 1 V\nbb = 2 V\nac = aax + bbx + nothing\nxb = ab1\n```\n",
		"parts.md":  "```working\na = 1 V ± 0.1 V\nb = 1 V / 0\nc = 1 + 1 V\n```\n",
		"other.md":  "```working\nuse \"parts.md\"\nd = 2 * parts.a\ne = 1 V / 0\n```\n",
		"uses.md":   "```working\nuse \"parts.md\" as p\nuse \"parts.md\" as q\nuse \"other.md\"\nx = p.a + q.a + other.d + p.b + q.c\nbudget x\n```\n",
		"table.md":  "```working\nx = t[\"row\"].mass + t.mas\n```\n\n<!-- table: t -->\n\n| name | mass [g] | mast [g] |\n| - | - | - |\n| rowa | 1 | 2 |\n| rowb | 1 | 2 |\n",
		"budget.md": "```working\na = 1 V ± 0.1 V\nb = 1 V ± 0.1 V\nc = 1 V ± 0.1 V\ny = a + b + c\nbudget y\nt = vary a in 1 V to 3 V by 1 V: y\ndraws 10_000\n```\n",
	} {
		write(t, filepath.Join(dir, name), text)
	}
	return n
}

// withoutAnswers leaves the lines out that announce a mistake.
func withoutAnswers(block string) string {
	var kept []string
	for _, line := range strings.Split(block, "\n") {
		if !strings.HasPrefix(line, "!") {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}
