// Package cmd_test holds the order of the house: imports only ever point down.
package cmd_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// floors are the packages from the ground up. A package may import those of
// lower floors, and its own subfolders.
var floors = [][]string{
	{"units", "evaluate/message", "evaluate/numeric", "evaluate/numeric/interval", "evaluate/library/model"},
	{"evaluate/library/internal/line", "evaluate/library/internal/require", "evaluate/report"},
	{"evaluate/library/internal/twobranch", "evaluate/library/internal/eseries"},
	{"worksheet/packing", "worksheet/region", "worksheet/chart", "evaluate/library/drive", "evaluate/library/glide"},
	{"evaluate/syntax", "evaluate/graph", "evaluate/library/energy", "evaluate/library/generator", "evaluate/library/flight", "evaluate/library/workshop", "evaluate/library/plain"},
	{"evaluate/library", "worksheet/formula", "worksheet/rules", "worksheet/beginning"},
	{"evaluate/program", "evaluate/manual", "evaluate/sheet", "evaluate/reach"},
	{"evaluate/check", "worksheet/markdown"},
	{"evaluate/run"},
	{"evaluate/study"},
	{"evaluate/show", "evaluate/working"},
	{"evaluate/present", "evaluate/explain", "evaluate/override", "evaluate/attribute", "evaluate/basis"},
	{"evaluate"},
	{"worksheet/page"},
	{"worksheet/handbook"},
	{"worksheet"},
	{"worksheet/reading"},
	{"worksheet/living"},
	{"cmd/inkwing/disk", "cmd/inkwing/layout", "cmd/inkwing/wire"},
	{"cmd/inkwing/desk"},
	{"cmd/inkwing", "cmd/browser"},
}

// tools are programs that build the project and are in no one's way.
var tools = map[string]bool{"evaluate/library/catalogue": true}

// forbidden are imports that are wrong from whatever floor: the language must not
// know Markdown, nor the units a place in a file.
var forbidden = map[string][]string{
	"evaluate": {"github.com/yuin/goldmark"},
	"units":    {"inkwing/evaluate/message"},
}

// physics must know neither units nor the language, in any folder of the library.
var physics = []string{"inkwing/units", "inkwing/evaluate/syntax"}

// world is what only cmd touches: files, processes, the network, the clock, the
// environment, the terminal.
var world = []string{"os", "io/ioutil", "net", "time", "syscall", "log", "golang.org/x/term", "github.com/spf13/cobra"}

func notFor(pkg string) []string {
	no := forbidden[pkg]
	if strings.HasPrefix(pkg, "evaluate/library/") {
		no = physics
	}
	if strings.HasPrefix(pkg, "cmd/") {
		return no
	}
	return append(slices.Clone(world), no...)
}

func TestImportsPointDown(t *testing.T) {
	floorOf := map[string]int{}
	for i, floor := range floors {
		for _, p := range floor {
			floorOf[p] = i
		}
	}
	for file, imports := range importsOf(t) {
		pkg := path.Dir(file)
		from, known := floorOf[pkg]
		if !known {
			if !tools[pkg] && !strings.Contains(pkg, "internal/") && !strings.Contains(pkg, "testdata") {
				t.Errorf("%s: the house has no room %s; give it a floor here", file, pkg)
			}
			continue
		}
		for _, imp := range imports {
			for _, no := range notFor(pkg) {
				if imp == no || strings.HasPrefix(imp, no+"/") {
					t.Errorf("%s imports %s, which its floor must not know", file, imp)
				}
			}
			target, ours := strings.CutPrefix(imp, "inkwing/")
			if !ours || strings.HasPrefix(target, pkg+"/") {
				continue
			}
			if to, ok := floorOf[target]; !ok || to >= from {
				t.Errorf("%s imports %s, which is not below it", file, imp)
			}
		}
	}
}

// layout is all of our own that what lays a report out may know: the report and
// the ground under it, and nothing of how it was come by.
var layout = []string{"evaluate/report", "evaluate/message", "evaluate/library/model", "units"}

func TestLayoutKnowsNoEngine(t *testing.T) {
	for file, imports := range importsOf(t) {
		pkg := path.Dir(file)
		if pkg != "worksheet/region" && pkg != "worksheet/chart" {
			continue
		}
		for _, imp := range imports {
			if target, ours := strings.CutPrefix(imp, "inkwing/"); ours && !slices.Contains(layout, target) {
				t.Errorf("%s imports %s, but it only lays a report out", file, imp)
			}
		}
	}
}

// TestDevelopersListsPackages wants each room in the table of DEVELOPERS.md, and
// no other there.
func TestDevelopersListsPackages(t *testing.T) {
	rooms := map[string]bool{"samples": true, "testdata/conformance": true}
	for p := range tools {
		rooms[p] = true
	}
	for _, floor := range floors {
		for _, p := range floor {
			rooms[p] = true
		}
	}
	for _, name := range listed(t) {
		if !rooms[name] {
			t.Errorf("DEVELOPERS.md lists %s, which is no package", name)
		}
		delete(rooms, name)
	}
	for name := range rooms {
		t.Errorf("DEVELOPERS.md does not list %s: it wants a row in the table under \"The packages\"", name)
	}
}

// TestDevelopersPointDown wants the table in such an order that each room stands
// above all that it imports, as the text over it says.
func TestDevelopersPointDown(t *testing.T) {
	list := listed(t)
	for file, imports := range importsOf(t) {
		from := slices.Index(list, path.Dir(file))
		for _, imp := range imports {
			target, ours := strings.CutPrefix(imp, "inkwing/")
			if to := slices.Index(list, target); ours && 0 <= to && to < from {
				t.Errorf("DEVELOPERS.md lists %s above %s, which imports it", target, path.Dir(file))
			}
		}
	}
}

// listed are the rooms of the table in DEVELOPERS.md, from the roof down.
func listed(t *testing.T) (rooms []string) {
	t.Helper()
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(text), "\n## The packages\n")
	table, _, _ = strings.Cut(table, "\nSome rules")
	for _, line := range strings.Split(table, "\n") {
		name, found := strings.CutPrefix(line, "| `")
		if name, _, _ = strings.Cut(name, "`"); !found {
			continue
		}
		if rest, short := strings.CutPrefix(name, "…/"); short {
			name = "evaluate/" + rest
		}
		rooms = append(rooms, name)
	}
	if len(rooms) < 20 {
		t.Fatalf("only %d rooms found", len(rooms))
	}
	return rooms
}

// importsOf reads the imports of every Go file that is no test, by path from
// the module's root.
func importsOf(t *testing.T) map[string][]string {
	root := os.DirFS("..")
	all := map[string][]string{}
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", name), nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		all[name] = nil
		for _, imp := range file.Imports {
			all[name] = append(all[name], strings.Trim(imp.Path.Value, `"`))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
