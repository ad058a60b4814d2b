package main

import (
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

var grownKinds = flag.String("grown", "", "a regular expression: which growing inputs TestInProportion takes, with all verbs; without it some with three")

// grownVerbs are what TestInProportion does with each input, one after the other.
var grownVerbs = [][]string{
	{"check", "--json", "notes.md"}, {"page", "notes.md"}, {"run", "notes.md"},
	{"run", "notes.md"}, {"check", "--keeping", "rules.md", "notes.md"}, {"explain", "notes.md", "b"}, {"try", "--all", "notes.md", "a=2"}, {"strip", "notes.md"},
}

// laysOut puts a growing input of n parts into a folder.
func (g growing) laysOut(t testing.TB, n int) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for name, text := range g.files(n) {
		name = filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "notes.md"), []byte(g.page(n)), 0o666); err != nil {
		t.Fatal(err)
	}
	return dir
}

// A cost is what a verb takes that no other program on the machine moves.
type cost struct{ allocations, bytes float64 }

// costs are those of the verbs for n parts.
func (g growing) costs(t *testing.T, n int, verbs [][]string) (list []cost) {
	t.Chdir(g.laysOut(t, n))
	for _, verb := range verbs {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		run(verb, strings.NewReader(""), io.Discard, io.Discard)
		runtime.ReadMemStats(&after)
		list = append(list, cost{float64(after.Mallocs - before.Mallocs), float64(after.TotalAlloc - before.TotalAlloc)})
	}
	return list
}

// grownParts is of how many parts the first of three inputs is; the next have twice and
// four times as many.
const grownParts = 60

// TestInProportion holds that an input of twice as much takes about twice the memory, so that
// no square hides in what allocates: the second doubling may add little more than two
// times what the first did. What takes time alone, BenchmarkGrowth of worksheet sees.
func TestInProportion(t *testing.T) {
	which, verbs := regexp.MustCompile(*grownKinds), grownVerbs
	if *grownKinds == "" {
		verbs = verbs[:3]
	}
	for i, g := range grown() {
		if *grownKinds == "" && i%24 != 0 || !which.MatchString(g.name) {
			continue
		}
		t.Run(strings.ReplaceAll(g.name, " ", "-"), func(t *testing.T) {
			g.costs(t, 5, verbs) // what is done once only is done
			once, twice, four := g.costs(t, grownParts, verbs), g.costs(t, 2*grownParts, verbs), g.costs(t, 4*grownParts, verbs)
			for i, verb := range verbs {
				if !once[i].linear(twice[i], four[i]) {
					t.Errorf("%v: %.0f, %.0f and %.0f", verb, once[i], twice[i], four[i])
				}
			}
		})
	}
}

// linear reports whether the costs of one, two and four times as much grow in step, but
// for what the runtime adds by chance, and for lists that are made larger by doubling.
func (c cost) linear(twice, four cost) bool {
	const someAllocations, someBytes = 3_000, 3 << 20
	return four.allocations-twice.allocations < 2.4*max(0, twice.allocations-c.allocations)+someAllocations &&
		four.bytes-twice.bytes < 3*max(0, twice.bytes-c.bytes)+someBytes
}
