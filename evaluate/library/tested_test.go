package library

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// TestEveryFunctionIsTested wants each function that the language can call to be called
// by a test of its own folder, which keeps the answer: kit.Must(Lead(…))(t), or
// lead, err := Lead(…).
func TestEveryFunctionIsTested(t *testing.T) {
	count := 0
	for _, list := range folders {
		for _, folder := range list {
			kept := answersKept(t, folder)
			for _, name := range callable(t, folder) {
				count++
				if !kept[name] {
					t.Errorf("%s: %s has no test that looks at its answer", folder, name)
				}
			}
		}
	}
	if count != len(All()) {
		t.Errorf("%d functions found of %d", count, len(All()))
	}
}

// answersKept are the functions whose answers a folder's tests keep.
func answersKept(t *testing.T, folder string) map[string]bool {
	t.Helper()
	kept := map[string]bool{}
	keep := func(e ast.Expr) {
		call, ok := e.(*ast.CallExpr)
		if !ok {
			return
		}
		if name, ok := call.Fun.(*ast.Ident); ok {
			kept[name.Name] = true
		}
	}
	for _, file := range parsed(t, folder, true) {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.AssignStmt:
				if name, ok := n.Lhs[0].(*ast.Ident); len(n.Rhs) == 1 && ok && name.Name != "_" {
					keep(n.Rhs[0])
				}
			case *ast.CallExpr:
				if of, ok := n.Fun.(*ast.SelectorExpr); ok && of.Sel.Name == "Must" && len(n.Args) == 1 {
					keep(n.Args[0])
				}
			}
			return true
		})
	}
	return kept
}

// parsed are a folder's files, those of its tests or the others.
func parsed(t *testing.T, folder string, tests bool) (files []*ast.File) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") != tests {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}

// callable are the Go names of a folder's functions, which a doc comment with an
// example makes part of the language.
func callable(t *testing.T, folder string) (all []string) {
	t.Helper()
	for _, file := range parsed(t, folder, false) {
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if ok && f.Recv == nil && f.Name.IsExported() && strings.Contains(f.Doc.Text(), "\nExample:") {
				all = append(all, f.Name.Name)
			}
		}
	}
	return all
}
