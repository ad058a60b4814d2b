package reach

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// A Finder finds numbers by their addresses. It keeps what it has seen of a line or a
// table, so that a thousand addresses of one look through it once, and suggests near
// names as long as that is not too much work. Its zero value is ready, for as long as
// what it looks at stays as it is.
type Finder struct {
	lines   map[syntax.Expr]*line
	grids   map[*syntax.Table]*grid
	own     map[*syntax.Function]*signature
	library map[string]*signature
	speller message.Speller
}

// A line is the right side of a definition with the arguments in it.
type line struct {
	value  syntax.Expr
	all    []*Argument
	named  map[string][]*Argument    // by the parameter
	called map[[2]string][]*Argument // by the function and the parameter
	calls  map[string]*signature     // by the function
	taken  map[string]*library.Param // of any call, the first of each name
	paths  []string                  // of those that have one
	at     map[syntax.Expr]*Argument // by the value, without its brackets
}

// Arguments is [Finder.Read], put together once.
func (f *Finder) Arguments(value syntax.Expr, own Functions) []*Argument {
	return f.line(value, own).all
}

// At is the argument that an expression is all of, nil for none.
func (f *Finder) At(x, value syntax.Expr, own Functions) *Argument { return f.line(value, own).at[x] }

// line is what is known of a right side.
func (f *Finder) line(value syntax.Expr, own Functions) *line {
	if l := f.lines[value]; l != nil {
		return l
	}
	l := &line{value: value, all: f.Read(value, own),
		named: map[string][]*Argument{}, called: map[[2]string][]*Argument{},
		calls: map[string]*signature{}, taken: map[string]*library.Param{}, at: map[syntax.Expr]*Argument{}}
	for _, a := range l.all {
		l.add(a, f.signature(a.Func, own))
	}
	if f.lines == nil {
		f.lines = map[syntax.Expr]*line{}
	}
	f.lines[value] = l
	return l
}

func (l *line) add(a *Argument, called *signature) {
	l.at[syntax.Unparen(a.Arg.Value)] = a
	both := [2]string{a.Func, a.Name}
	l.named[a.Name], l.called[both] = append(l.named[a.Name], a), append(l.called[both], a)
	if a.Path != "" {
		l.paths = append(l.paths, a.Path)
	}
	if l.calls[a.Func] != nil {
		return
	}
	l.calls[a.Func] = called
	for i := range called.params {
		if p := &called.params[i]; l.taken[p.Name] == nil {
			l.taken[p.Name] = p
		}
	}
}

// given are the arguments that an address may mean.
func (l *line) given(x *syntax.Argument) []*Argument {
	if x.Func.Name == "" {
		return l.named[x.Name.Name]
	}
	return l.called[[2]string{x.Func.Name, x.Name.Name}]
}

// missed is the parameter that an address means and no call is given, nil for none.
func (l *line) missed(x *syntax.Argument) *library.Param {
	if x.Func.Name == "" {
		return l.taken[x.Name.Name]
	}
	if s := l.calls[x.Func.Name]; s != nil && s.place(x.Name.Name) >= 0 {
		return &s.params[s.place(x.Name.Name)]
	}
	return nil
}

// A grid is a table with its columns by their names and its rows by their keys, the
// first where several have one, and what its rows go under.
type grid struct {
	*syntax.Table
	heads         []string
	columns, rows map[string]int
	keys          []string
}

// grid is what is known of a table.
func (f *Finder) grid(t *syntax.Table) *grid {
	if g := f.grids[t]; g != nil {
		return g
	}
	g := &grid{Table: t, heads: t.Headings(), columns: map[string]int{}, rows: map[string]int{}}
	for i, name := range g.heads {
		putFirst(g.columns, name, i)
	}
	for i, row := range t.Rows {
		if len(row) > 0 {
			putFirst(g.rows, row[0].Text, i)
		}
	}
	if f.grids == nil {
		f.grids = map[*syntax.Table]*grid{}
	}
	f.grids[t] = g
	return g
}

func putFirst(list map[string]int, name string, at int) {
	if _, known := list[name]; !known {
		list[name] = at
	}
}
