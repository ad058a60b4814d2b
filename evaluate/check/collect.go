package check

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/syntax"
)

// sheet gathers the names of a sheet and of all it uses.
func (a *analysis) sheet(in Input) *sheet {
	s := &sheet{
		Sheet: &program.Sheet{
			Name: in.Name, Tree: in.Tree,
			Functions: map[string]*program.Def{}, Names: map[string]*program.Def{}, Uses: map[string]*program.Sheet{}, Broken: map[string]bool{},
			DigitsOf: map[string]int{}, Problems: in.Problems,
		},
		unread: setOf(in.Unread), deviations: map[syntax.Expr][]*program.Def{},
		stands: map[syntax.Expr]*program.Def{}, unreached: map[syntax.Expr]*reach.Trouble{},
	}
	s.own = s.function
	a.sheets[s.Sheet], a.byName[in.Name] = s, s
	a.Sheets = append(a.Sheets, s.Sheet)
	a.open = append(a.open, in.Name)
	for _, t := range in.Tables {
		a.table(s, t, t.Name)
	}
	for _, stmt := range s.Statements() {
		if a.over() {
			break
		}
		a.statement(s, stmt)
	}
	a.deviations(s)
	a.open = a.open[:len(a.open)-1]
	return s
}

func setOf(names []string) map[string]bool {
	set := make(map[string]bool, len(names))
	for _, name := range names {
		set[name] = true
	}
	return set
}

// statement numbers what a statement defines. Its body is of the kind that the
// statement is; what is in it is left to the checking.
func (a *analysis) statement(s *sheet, stmt syntax.Statement) {
	main := len(a.open) == 1
	switch x := stmt.(type) {
	case *syntax.Definition:
		a.named(s, x, x.Name, defined(x))
	case *syntax.Limit:
		a.add(s, x, x.Span, &program.Limit{})
	case *syntax.Study:
		// One of a used sheet is shown there, and nobody else can name it.
		if main {
			a.add(s, x, x.Span, &program.Study{})
		}
	case *syntax.Chart:
		if main {
			a.add(s, x, x.Title.Span, &program.Chart{})
		}
	case *syntax.Measured:
		a.add(s, x, x.Of.Place(), &program.Measurement{})
	case *syntax.Budget:
		a.add(s, x, x.Of.Place(), &program.Budget{})
	case *syntax.Show:
		if main {
			a.add(s, x, x.Of.Place(), &program.Show{})
		}
	case *syntax.Function:
		a.function(s, x)
	case *syntax.Use:
		a.use(s, x)
	case *syntax.Digits:
		s.digits(x)
	case *syntax.Draws:
		s.draws(x)
	case *syntax.Correlation: // found when all names are known
	case *syntax.Overview: // present tells what the page came to
	default:
		s.notYet(stmt)
	}
}

// defined is the body of name = value: a study stands there as a value does.
func defined(x *syntax.Definition) program.Body {
	if syntax.StudyOf(x) != nil {
		return &program.Study{}
	}
	return &program.Value{}
}

// add numbers a definition.
func (a *analysis) add(s *sheet, stmt syntax.Statement, at message.Span, body program.Body) *program.Def {
	d := &program.Def{ID: len(a.Defs), Sheet: s.Sheet, Stmt: stmt, Place: at, Body: body}
	if stmt != nil {
		d.Block = stmt.Common().Block
	}
	a.Defs = append(a.Defs, d)
	s.Defs = append(s.Defs, d)
	return d
}

// named adds a definition with a name, unless the name is taken.
func (a *analysis) named(s *sheet, stmt syntax.Statement, name syntax.Ident, body program.Body) *program.Def {
	d := a.add(s, stmt, name.Span, body)
	d.Name = name.Name
	if first := s.Names[name.Name]; first != nil {
		s.say(message.Diagnostic{
			Span:    name.Span,
			Summary: message.Quote(name.Name) + " is defined twice",
			Hint:    "give one of the two another name",
			Notes:   []message.Note{{Span: first.Place, Text: "first defined here"}},
		})
		// Nobody can say which of the two is meant: what needs the name waits.
		d.Failed, first.Failed = true, true
		return d
	}
	if s.Uses[name.Name] != nil {
		a.fail(d, name.Span, message.Quote(name.Name)+" is the name of a worksheet that is used", "give the quantity another name, or the worksheet: use … as parts")
		return d
	}
	s.Names[name.Name] = d
	return d
}

// table adds a table of the file, which has no statement, or of a file in use.
func (a *analysis) table(s *sheet, t *syntax.Table, name syntax.Ident) *program.Def {
	if !syntax.IsName(name.Name) && len(t.Problems) == 0 {
		s.fail(name.Span, message.Quote(name.Name)+" cannot be the name of a table", "a name is of letters, digits and _, such as `cells`: "+message.Quote("<!-- table: cells -->"))
	}
	data := &program.Data{Source: t}
	d := a.named(s, nil, name, data)
	a.workedCells(s, d, data)
	a.cellDeviations(d, t)
	return d
}

// function adds one of the builder's own, to be numbered when all definitions
// are.
func (a *analysis) function(s *sheet, x *syntax.Function) {
	if first, ok := s.Functions[x.Name.Name]; ok {
		s.say(message.Diagnostic{
			Span:    x.Name.Span,
			Summary: "the function " + message.Quote(x.Name.Name) + " is defined twice",
			Hint:    "give one of the two another name",
			Notes:   []message.Note{{Span: first.Place, Text: "first defined here"}},
		})
		return
	}
	params := map[string]bool{}
	for _, p := range x.Params {
		if params[p.Name.Name] {
			s.fail(p.Name.Span, "the parameter "+message.Quote(p.Name.Name)+" stands twice", "give one of the two another name")
			return
		}
		params[p.Name.Name] = true
	}
	d := &program.Def{Sheet: s.Sheet, Stmt: x, Block: x.Block, Name: x.Name.Name, Place: x.Name.Span, Body: &program.Function{Stmt: x}}
	if u := uncertainIn(x.Body); u != nil {
		a.fail(d, u.Span, "a value with "+message.Quote(u.Op)+" cannot stand in a function", "leave it to what the function is called with: an uncertain argument makes an uncertain answer")
	}
	s.Functions[d.Name] = d
	s.functions = append(s.functions, d)
}

// uncertainIn is the first ± or within in an expression.
func uncertainIn(e syntax.Expr) *syntax.Uncertain {
	if u, ok := e.(*syntax.Uncertain); ok {
		return u
	}
	for _, child := range syntax.Children(e) {
		if u := uncertainIn(child); u != nil {
			return u
		}
	}
	return nil
}

func (s *sheet) notYet(stmt syntax.Statement) {
	s.fail(stmt.Place(), "this statement is not worked yet", "the line is understood; take it out, or put # before it, until it is")
}
