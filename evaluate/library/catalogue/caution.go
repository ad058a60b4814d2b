package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/constant"
	"go/types"
	"maps"
	"path"
	"slices"
)

// A caution is what one literal of model.Caution says, whatever its values.
type caution struct {
	topic    string
	text     map[string]string // by field: ID, Summary, Why, Hint, Source
	level    string            // the Go name of the level's constant
	standing bool
	place    string
}

// texts are the fields that hold one.
var texts = []string{"ID", "Summary", "Why", "Hint", "Source"}

// readCautions finds the cautions of the folders, sorted by topic and ID, and which
// of them each declared function may raise.
//
// A local variable counts as the constant that it is declared with: where one
// caution has several wordings or levels, that is its first. A parameter within
// a longer text is one of the values, and shows as …. An assignment to the
// field ID of a caution makes another one of it.
func readCautions(dir string, folders []string) (found []caution, from raisers, problems []string, err error) {
	r, from := newReader(dir), raisers{}
	for _, folder := range folders {
		pack, err := r.Import(path.Join(libraryPath, folder))
		if err != nil {
			return nil, nil, nil, err
		}
		c := r.collector(pack)
		for _, file := range r.files[pack.Path()] {
			for _, d := range file.Decls {
				before := len(c.found)
				ast.Inspect(d, c.visit)
				from.add(c.info, d, c.found[before:])
			}
		}
		found, problems = append(found, c.found...), append(problems, c.problems...)
	}
	slices.SortStableFunc(found, func(a, b caution) int {
		return cmp.Or(cmp.Compare(a.topic, b.topic), cmp.Compare(a.text["ID"], b.text["ID"]))
	})
	found, doubled := oneMeaning(found)
	return found, from, append(problems, doubled...), nil
}

// oneMeaning drops repeated cautions, and names an ID of two meanings.
func oneMeaning(found []caution) (kept []caution, problems []string) {
	seen := map[string]caution{}
	for _, c := range found {
		id := c.text["ID"]
		first, again := seen[id]
		switch {
		case !again:
			seen[id], kept = c, append(kept, c)
		case !maps.Equal(first.text, c.text) || first.level != c.level || first.topic != c.topic:
			problems = append(problems, fmt.Sprintf("%s: the caution %s has another meaning at %s", c.place, id, first.place))
		}
	}
	return kept, problems
}

// A collector reads the cautions in the bodies of a package.
type collector struct {
	reader   *reader
	pack     *types.Package
	info     *types.Info
	starts   map[types.Object]ast.Expr // what a local variable is declared with
	found    []caution
	problems []string
}

// collector type-checks a package with its bodies. Packages from outside stand
// empty, so errors are the rule; what concerns a caution is not among them.
func (r *reader) collector(pack *types.Package) *collector {
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}}
	ignore := types.Config{Importer: r, Error: func(error) {}}
	files := r.files[pack.Path()]
	checked, _ := ignore.Check(pack.Path(), r.fset, files, info)
	c := &collector{reader: r, pack: checked, info: info, starts: map[types.Object]ast.Expr{}}
	for _, file := range files {
		ast.Inspect(file, c.start)
	}
	return c
}

// start notes what a variable is declared with.
func (c *collector) start(n ast.Node) bool {
	if a, ok := n.(*ast.AssignStmt); ok && len(a.Lhs) == len(a.Rhs) {
		for i, left := range a.Lhs {
			if name, ok := left.(*ast.Ident); ok && c.info.Defs[name] != nil {
				c.starts[c.info.Defs[name]] = a.Rhs[i]
			}
		}
	}
	return true
}

func (c *collector) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.CompositeLit:
		if c.isCaution(n) && len(n.Elts) > 0 {
			c.found = append(c.found, c.read(n))
		}
	case *ast.BlockStmt:
		c.renamed(n.List)
	case *ast.CaseClause:
		c.renamed(n.Body)
	}
	return true
}

// isCaution is judged by the type, and by the name where no type is known.
func (c *collector) isCaution(n ast.Expr) bool {
	t := c.info.TypeOf(n)
	if t == nil {
		lit, _ := n.(*ast.CompositeLit)
		s, _ := lit.Type.(*ast.SelectorExpr)
		return s != nil && s.Sel.Name == "Caution"
	}
	if p, ok := t.(*types.Pointer); ok {
		t = p.Elem()
	}
	named, _ := types.Unalias(t).(*types.Named)
	return named != nil && named.Obj().Name() == "Caution" && named.Obj().Pkg() != nil && named.Obj().Pkg().Path() == libraryPath+"/model"
}

// read is the caution of a literal.
func (c *collector) read(lit *ast.CompositeLit) caution {
	out := caution{topic: topic(c.pack.Name()), text: map[string]string{}, level: "Advice", place: c.reader.place(lit.Pos())}
	for _, e := range lit.Elts {
		pair, ok := e.(*ast.KeyValueExpr)
		if !ok {
			c.fault(lit, "a caution without the names of its fields")
			return out
		}
		if name, ok := pair.Key.(*ast.Ident); ok {
			c.set(&out, name.Name, pair.Value)
		}
	}
	if out.text["ID"] == "" {
		c.fault(lit, "a caution without an ID")
	}
	return out
}

// renamed reads the cautions that a block makes of another by a new ID.
func (c *collector) renamed(block []ast.Stmt) {
	for _, id := range fieldsSet(block) {
		if id.field.Sel.Name != "ID" || !c.isCaution(id.field.X) {
			continue
		}
		name, _ := id.field.X.(*ast.Ident)
		lit, ok := c.starts[c.info.Uses[name]].(*ast.CompositeLit)
		if name == nil || !ok {
			c.fault(id.field, "the ID of a caution is set that is not made in the same function")
			continue
		}
		out := c.read(lit)
		out.place = c.reader.place(id.field.Pos())
		for _, s := range fieldsSet(block) {
			if of, ok := s.field.X.(*ast.Ident); ok && c.info.Uses[of] == c.info.Uses[name] {
				c.set(&out, s.field.Sel.Name, s.to)
			}
		}
		c.found = append(c.found, out)
	}
}

// A fieldSet is one v.field = to.
type fieldSet struct {
	field *ast.SelectorExpr
	to    ast.Expr
}

// fieldsSet are those right in a block, not in blocks within.
func fieldsSet(block []ast.Stmt) (out []fieldSet) {
	for _, s := range block {
		a, ok := s.(*ast.AssignStmt)
		if !ok || len(a.Lhs) != len(a.Rhs) || a.Tok.String() != "=" {
			continue
		}
		for i, left := range a.Lhs {
			if field, ok := left.(*ast.SelectorExpr); ok {
				out = append(out, fieldSet{field, a.Rhs[i]})
			}
		}
	}
	return out
}

// set reads one field's value; the values are not the list's matter.
func (c *collector) set(out *caution, field string, value ast.Expr) {
	switch {
	case slices.Contains(texts, field):
		text, ok := c.textOf(value, field != "ID")
		if !ok {
			c.fault(value, "the field "+field+" of a caution is no constant text")
		}
		out.text[field] = text
	case field == "Level":
		level, ok := c.levelOf(value)
		if !ok {
			c.fault(value, "the level of a caution is no constant")
		}
		out.level = level
	case field == "Standing":
		v := c.info.Types[value].Value
		if v == nil {
			c.fault(value, "whether a caution is standing is no constant")
			return
		}
		out.standing = constant.BoolVal(v)
	}
}

func (c *collector) fault(at ast.Node, says string) {
	c.problems = append(c.problems, fmt.Sprintf("%s: %s, so it cannot be listed", c.reader.place(at.Pos()), says))
}

// textOf is a constant text, a variable declared with one, or a sum of such
// and, if open, of parameters.
func (c *collector) textOf(e ast.Expr, open bool) (string, bool) {
	if v := c.info.Types[e].Value; v != nil && v.Kind() == constant.String {
		return constant.StringVal(v), true
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return c.textOf(e.X, open)
	case *ast.Ident:
		if from := c.starts[c.info.Uses[e]]; from != nil {
			return c.textOf(from, open)
		}
	case *ast.BinaryExpr:
		left, leftOK := c.part(e.X, open)
		right, rightOK := c.part(e.Y, open)
		return left + right, leftOK && rightOK
	}
	return "", false
}

// part is a text within a longer one.
func (c *collector) part(e ast.Expr, open bool) (string, bool) {
	if text, ok := c.textOf(e, open); ok {
		return text, true
	}
	_, name := e.(*ast.Ident)
	return "…", open && name
}

// levelOf is the name of a level's constant.
func (c *collector) levelOf(e ast.Expr) (string, bool) {
	v := c.info.Types[e].Value
	if v == nil {
		name, _ := e.(*ast.Ident)
		if from := c.starts[c.info.Uses[name]]; name != nil && from != nil {
			return c.levelOf(from)
		}
		return "Advice", false
	}
	i, ok := constant.Int64Val(constant.ToInt(v))
	levels := []string{"Advice", "Warning", "Danger"}
	if !ok || i < 0 || int(i) >= len(levels) {
		return "Advice", false
	}
	return levels[i], true
}
