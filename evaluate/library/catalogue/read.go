package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"inkwing/evaluate/library/internal/snake"
)

// libraryPath is the import path of the library's folder.
const libraryPath = "inkwing/evaluate/library"

// A function is a declaration that the language can call.
type function struct {
	goName  string
	name    string // in the language
	topic   string
	doc     doc
	pack    *types.Package
	in, out *types.Named
	context bool   // whether it takes the context of the run before its input
	place   string // file:line, for problems
}

// read finds the functions of the folders, sorted by name.
func read(dir string, folders []string) (functions []function, problems []string, err error) {
	r := newReader(dir)
	for _, folder := range folders {
		pack, err := r.Import(path.Join(libraryPath, folder))
		if err != nil {
			return nil, nil, err
		}
		found, bad := r.functions(pack)
		functions, problems = append(functions, found...), append(problems, bad...)
	}
	slices.SortFunc(functions, func(a, b function) int { return cmp.Compare(a.name, b.name) })
	functions, doubled := unique(functions)
	return functions, append(problems, doubled...), nil
}

// unique drops a function whose name another one has already.
func unique(functions []function) (kept []function, problems []string) {
	for _, f := range functions {
		if n := len(kept); n > 0 && kept[n-1].name == f.name {
			problems = append(problems, fmt.Sprintf("%s: %s is also the name of %s.%s; rename one",
				f.place, f.name, kept[n-1].pack.Name(), kept[n-1].goName))
			continue
		}
		kept = append(kept, f)
	}
	return kept, problems
}

// A reader type-checks the declarations of the library's packages. It is their
// importer too; other packages stand empty, since no declaration that the
// language can call has a type of theirs.
type reader struct {
	dir      string
	fset     *token.FileSet
	packages map[string]*types.Package
	files    map[string][]*ast.File
}

func newReader(dir string) *reader {
	return &reader{dir: dir, fset: token.NewFileSet(), packages: map[string]*types.Package{}, files: map[string][]*ast.File{}}
}

// Import reads a package of the library from its source.
func (r *reader) Import(importPath string) (*types.Package, error) {
	if p := r.packages[importPath]; p != nil {
		return p, nil
	}
	inside, ok := strings.CutPrefix(importPath, libraryPath+"/")
	if !ok {
		empty := types.NewPackage(importPath, path.Base(importPath))
		if importPath == "context" { // the one type from outside that a function may take
			name := types.NewTypeName(token.NoPos, empty, "Context", nil)
			types.NewNamed(name, types.NewInterfaceType(nil, nil), nil)
			empty.Scope().Insert(name)
		}
		empty.MarkComplete()
		return empty, nil
	}
	files, err := r.parse(filepath.Join(r.dir, filepath.FromSlash(inside)))
	if err != nil {
		return nil, err
	}
	ignore := types.Config{Importer: r, IgnoreFuncBodies: true, Error: func(error) {}}
	pack, _ := ignore.Check(importPath, r.fset, files, nil)
	r.packages[importPath], r.files[importPath] = pack, files
	return pack, nil
}

// parse reads the Go files of a folder, without tests.
func (r *reader) parse(dir string) ([]*ast.File, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(r.fset, name, nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		files = append(files, f)
	}
	return files, nil
}

// functions are those of a package, with what is nearly one but cannot be read.
func (r *reader) functions(pack *types.Package) (functions []function, problems []string) {
	common := r.packageDoc(pack)
	for _, file := range r.files[pack.Path()] {
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Recv != nil || !f.Name.IsExported() {
				continue
			}
			object, _ := pack.Scope().Lookup(f.Name.Name).(*types.Func)
			if object == nil {
				continue
			}
			in, out, underContext, fault := shape(object)
			place := r.place(f.Pos())
			switch {
			case fault != "":
				problems = append(problems, fmt.Sprintf("%s: %s.%s %s", place, pack.Name(), f.Name.Name, fault))
			case in != nil:
				name := snake.Case(f.Name.Name)
				functions = append(functions, function{
					goName: f.Name.Name, name: name, topic: topic(pack.Name()), pack: pack, in: in, out: out, context: underContext, place: place,
					doc: takeApart(f.Doc.Text(), f.Name.Name, name).or(common),
				})
			}
		}
	}
	return functions, problems
}

// packageDoc holds what the functions of a package share: the labels in its
// package comment.
func (r *reader) packageDoc(pack *types.Package) doc {
	var all doc
	for _, file := range r.files[pack.Path()] {
		all = all.or(takeApart(file.Doc.Text(), "", ""))
	}
	return all
}

func (r *reader) place(p token.Pos) string {
	at := r.fset.Position(p)
	return fmt.Sprintf("%s:%d", filepath.ToSlash(at.Filename), at.Line)
}

// shape is the input and the result of a function from one struct to another,
// func F(in FInput) (FResult, error), or of one that iterates and so takes a
// context before it. Both are nil for any other; the fault is what keeps one
// from being read that has an …Input or a …Result and so seems to be meant.
func shape(f *types.Func) (in, out *types.Named, underContext bool, fault string) {
	signature := f.Signature()
	first := 0
	if p := signature.Params(); p.Len() > 0 && isContext(p.At(0).Type()) {
		first, underContext = 1, true
	}
	in, out = structAt(signature.Params(), first), structAt(signature.Results(), 0)
	if in != nil && out != nil && signature.Params().Len() == first+1 &&
		signature.Results().Len() == 2 && isError(signature.Results().At(1).Type()) {
		return in, out, underContext, ""
	}
	if in != nil && strings.HasSuffix(in.Obj().Name(), "Input") || out != nil && strings.HasSuffix(out.Obj().Name(), "Result") {
		return nil, nil, false, fmt.Sprintf("is not of the shape func %s(in %sInput) (%sResult, error): it is %s",
			f.Name(), f.Name(), f.Name(), strings.TrimPrefix(types.TypeString(signature, types.RelativeTo(f.Pkg())), "func"))
	}
	return nil, nil, false, ""
}

// isContext reports whether a type is context.Context.
func isContext(t types.Type) bool {
	named, _ := types.Unalias(t).(*types.Named)
	return named != nil && named.Obj().Name() == "Context" && named.Obj().Pkg() != nil && named.Obj().Pkg().Path() == "context"
}

// structAt is the named struct at place i of a list of parameters, or nil.
func structAt(list *types.Tuple, i int) *types.Named {
	if list.Len() <= i {
		return nil
	}
	named, _ := types.Unalias(list.At(i).Type()).(*types.Named)
	if named == nil {
		return nil
	}
	if _, ok := named.Underlying().(*types.Struct); !ok {
		return nil
	}
	return named
}

func isError(t types.Type) bool {
	return types.Identical(t, types.Universe.Lookup("error").Type())
}
