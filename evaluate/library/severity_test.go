package library

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"strings"
	"testing"
)

// TestSeverity wants every caution that tells a number to say which of two is graver:
// by its two numbers of one unit, {0} against the bound {1}, or by a Severity.
func TestSeverity(t *testing.T) {
	ordered := 0
	for _, lit := range cautionLiterals(t) {
		f := fieldsOf(lit)
		units := unitsIn(f["Values"])
		if len(units) == 0 {
			continue // it says no number here
		}
		ordered++
		if f["Severity"] == nil && (len(units) < 2 || units[0] != units[1]) {
			t.Errorf("%s: which of two is graver? Give a Severity", id(f["ID"]))
		}
	}
	if ordered < 40 {
		t.Errorf("only %d cautions were looked at", ordered)
	}
}

// cautionLiterals are all literals of model.Caution in the physics.
func cautionLiterals(t *testing.T) (list []*ast.CompositeLit) {
	t.Helper()
	files := token.NewFileSet()
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || !strings.Contains(name, "/") ||
			strings.HasSuffix(name, "_test.go") || strings.HasPrefix(name, "internal") {
			return err
		}
		file, err := parser.ParseFile(files, name, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			lit, ok := n.(*ast.CompositeLit)
			if ok && isCaution(lit.Type) {
				list = append(list, lit)
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func isCaution(e ast.Expr) bool {
	s, ok := e.(*ast.SelectorExpr)
	return ok && s.Sel.Name == "Caution"
}

func fieldsOf(lit *ast.CompositeLit) map[string]ast.Expr {
	fields := map[string]ast.Expr{}
	for _, e := range lit.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			fields[kv.Key.(*ast.Ident).Name] = kv.Value
		}
	}
	return fields
}

// unitsIn are the units of a list of values, as they are written: the last argument of
// model.In, or the whole of another call; none where all are constants.
func unitsIn(e ast.Expr) (units []string) {
	list, ok := e.(*ast.CompositeLit)
	if !ok {
		return nil
	}
	constant := true
	for _, v := range list.Elts {
		unit := "?"
		if call, ok := v.(*ast.CallExpr); ok {
			unit = id(call.Fun)
			if lit, ok := call.Args[len(call.Args)-1].(*ast.BasicLit); ok {
				unit = lit.Value
			}
			_, fixed := call.Args[0].(*ast.BasicLit)
			constant = constant && fixed
		}
		units = append(units, unit)
	}
	if constant {
		return nil
	}
	return units
}

func id(e ast.Expr) string {
	switch x := e.(type) {
	case *ast.BasicLit:
		return x.Value
	case *ast.Ident:
		return x.Name
	case *ast.SelectorExpr:
		return x.Sel.Name
	}
	return "?"
}
