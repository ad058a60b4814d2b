package library

import (
	"bufio"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// checks is the table of what holds each function from outside and by an
// independent route; its head says what the columns are.
const checks = "../../testdata/checks.tsv"

// routes are the independent routes there are.
var routes = []string{"closed form", "quadrature", "ODE", "sum", "simulation", "search", "inverse"}

// A check is a row of the table.
type check struct {
	line                               int
	name, source, test, route, another string
}

// readChecks reads the table, by function.
func readChecks(t *testing.T) map[string]check {
	t.Helper()
	file, err := os.Open(checks)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, lines := map[string]check{}, bufio.NewScanner(file)
	for line := 1; lines.Scan(); line++ {
		text := lines.Text()
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		cells := strings.Split(text, "\t")
		if len(cells) != 5 || slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) == "" }) {
			t.Errorf("%s:%d: want five cells, none empty: %q", checks, line, text)
			continue
		}
		if _, twice := rows[cells[0]]; twice {
			t.Errorf("%s:%d: a second row for %s", checks, line, cells[0])
		}
		rows[cells[0]] = check{line, cells[0], cells[1], cells[2], cells[3], cells[4]}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return rows
}

// folders are those of each topic.
var folders = map[string][]string{"generator": {"generator"}, "energy": {"energy"}, "glide": {"glide", "drive", "flight"}, "workshop": {"workshop"}, "plain": {"plain"}}

// testsOf are the test and fuzz functions of packages' folders.
func testsOf(t *testing.T, folders ...string) map[string]bool {
	t.Helper()
	var names []string
	for _, folder := range folders {
		found, err := filepath.Glob(filepath.Join(folder, "*_test.go"))
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, found...)
	}
	found := map[string]bool{}
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if ok && f.Recv == nil && (strings.HasPrefix(f.Name.Name, "Test") || strings.HasPrefix(f.Name.Name, "Fuzz")) {
				found[f.Name.Name] = true
			}
		}
	}
	return found
}

// TestChecks wants a row for every function and a function for every row, and
// the tests that a row names to be there. With -v it prints the table, unless it
// fails: what is wrong would be buried under it.
func TestChecks(t *testing.T) {
	var table []string
	rows, tests := readChecks(t), map[string]map[string]bool{}
	for _, f := range All() {
		row, ok := rows[f.Name]
		if !ok {
			t.Errorf("%s has no row in %s: name its check from outside and its independent route", f.Name, checks)
			continue
		}
		delete(rows, f.Name)
		if tests[f.Topic] == nil {
			tests[f.Topic] = testsOf(t, folders[f.Topic]...)
		}
		for _, name := range []string{row.test, row.another} {
			if !tests[f.Topic][name] {
				t.Errorf("%s:%d: %s has no test %s", checks, row.line, f.Topic, name)
			}
		}
		if !slices.Contains(routes, row.route) {
			t.Errorf("%s:%d: no route %q, only %s", checks, row.line, row.route, strings.Join(routes, ", "))
		}
		table = append(table, fmt.Sprintf("%-9s %-27s %s (%s); %s (%s)", f.Topic, f.Name, row.source, row.test, row.route, row.another))
	}
	for name, row := range rows {
		t.Errorf("%s:%d: there is no function %s", checks, row.line, name)
	}
	if !t.Failed() {
		t.Log("\n" + strings.Join(table, "\n"))
	}
}
