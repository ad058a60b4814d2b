package check

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// Load finds what a sheet uses; its error is shown to the builder.
type Load func(from, path string) (*Input, error)

// collector gathers the names of a sheet and of all it uses.
type collector struct {
	load    Load
	program *Program
	byName  map[string]*Sheet
	open    []string // the chain of sheets being collected
	// uncertain counts the offsets so far, against maxOffsets.
	uncertain int
}

func (c *collector) sheet(in Input) *Sheet {
	s := &Sheet{
		Name: in.Name, input: in,
		Functions: map[string]*Function{}, Names: map[string]*Def{}, Uses: map[string]*Sheet{},
		DigitsOf: map[string]int{}, offsets: map[syntax.Expr][]*Def{},
		problems: in.Problems,
	}
	c.byName[in.Name] = s
	c.program.Sheets = append(c.program.Sheets, s)
	c.open = append(c.open, in.Name)
	for _, t := range in.Tables {
		c.table(s, t, t.Name)
	}
	if in.Tree != nil {
		for _, stmt := range in.Tree.Statements {
			c.statement(s, stmt)
		}
	}
	c.offsets(s)
	c.open = c.open[:len(c.open)-1]
	return s
}

func (c *collector) statement(s *Sheet, stmt syntax.Statement) {
	switch x := stmt.(type) {
	case *syntax.Definition:
		d := c.define(s, x.Name, Value)
		d.Stmt, d.Block = x, x.Block
	case *syntax.Limit:
		d := c.add(s, &Def{Role: Bound, Place: x.Span})
		d.Stmt, d.Block = x, x.Block
	case *syntax.Study:
		// One of a used sheet is shown there, and nobody else can name it.
		if len(c.open) == 1 {
			d := c.add(s, &Def{Role: Value, Place: x.Span})
			d.Stmt, d.Block = x, x.Block
		}
	case *syntax.Chart:
		if len(c.open) == 1 {
			d := c.add(s, &Def{Role: Chart, Place: x.Title.Span})
			d.Stmt, d.Block = x, x.Block
		}
	case *syntax.Function:
		c.function(s, x)
	case *syntax.Use:
		c.use(s, x)
	case *syntax.Digits:
		s.digits(x)
	case *syntax.Draws:
		s.draws(x)
	case *syntax.Measured:
		d := c.add(s, &Def{Role: Reading, Place: x.Of.Place()})
		d.Stmt, d.Block = x, x.Block
	case *syntax.Budget:
		d := c.add(s, &Def{Role: Budget, Place: x.Of.Place()})
		d.Stmt, d.Block = x, x.Block
	default:
		s.notYet(stmt)
	}
}

// add numbers a definition.
func (c *collector) add(s *Sheet, d *Def) *Def {
	d.ID, d.Sheet = len(c.program.Defs), s
	c.program.Defs = append(c.program.Defs, d)
	s.Defs = append(s.Defs, d)
	return d
}

// define adds a named definition, unless the name is taken.
func (c *collector) define(s *Sheet, name syntax.Ident, role Role) *Def {
	d := c.add(s, &Def{Role: role, Name: name.Name, Place: name.Span})
	if first := s.Names[name.Name]; first != nil {
		s.say(message.Diagnostic{
			Span:    name.Span,
			Summary: quote(name.Name) + " is defined twice",
			Hint:    "give one of the two another name",
			Notes:   []message.Note{{Span: first.Place, Text: "first defined here"}},
		})
		// Nobody can say which of the two is meant: what needs the name waits.
		d.Failed, first.Failed = true, true
		return d
	}
	if s.Uses[name.Name] != nil {
		s.fail(name.Span, quote(name.Name)+" is the name of a worksheet that is used", "give the quantity another name, or the worksheet: use … as parts")
		d.Failed = true
		return d
	}
	s.Names[name.Name] = d
	return d
}

func (c *collector) table(s *Sheet, t *syntax.Table, name syntax.Ident) *Def {
	if !syntax.IsName(name.Name) && len(t.Problems) == 0 {
		s.fail(name.Span, quote(name.Name)+" cannot be the name of a table", "a name is of letters, digits and _, such as `cells`: "+quote("<!-- table: cells -->"))
	}
	d := c.define(s, name, Data)
	d.cells = t
	c.cellOffsets(d)
	return d
}

func (c *collector) function(s *Sheet, x *syntax.Function) {
	if first, ok := s.Functions[x.Name.Name]; ok {
		s.say(message.Diagnostic{
			Span:    x.Name.Span,
			Summary: "the function " + quote(x.Name.Name) + " is defined twice",
			Hint:    "give one of the two another name",
			Notes:   []message.Note{{Span: first.Stmt.Name.Span, Text: "first defined here"}},
		})
		return
	}
	for i, p := range x.Params {
		if paramIndex(x.Params[:i], p.Name.Name) >= 0 {
			s.fail(p.Name.Span, "the parameter "+quote(p.Name.Name)+" stands twice", "give one of the two another name")
			return
		}
	}
	fn := &Function{Stmt: x, Sheet: s, checked: map[string]Node{}}
	if u := uncertainIn(x.Body); u != nil {
		s.fail(u.Span, "a value with "+quote(u.Op)+" cannot stand in a function", "leave it to what the function is called with: an uncertain argument makes an uncertain answer")
		fn.Failed = true
	}
	s.Functions[x.Name.Name] = fn
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

func (s *Sheet) notYet(stmt syntax.Statement) {
	s.fail(stmt.Place(), "this statement is not worked yet", "the line is understood; take it out, or put # before it, until it is")
}

func studyVerb(e syntax.Expr) string {
	switch e.(type) {
	case *syntax.Vary:
		return "vary"
	case *syntax.Adjust:
		return "adjust"
	case *syntax.Tune:
		return "tune"
	}
	return ""
}

func (s *Sheet) say(d message.Diagnostic) { s.problems = append(s.problems, d) }

func (s *Sheet) fail(at message.Span, summary, hint string) {
	s.say(message.Diagnostic{Span: at, Summary: summary, Hint: hint})
}

func quote(name string) string { return "`" + name + "`" }

// Dotted is a name or field as written, "store.capacitance"; false for any other
// expression.
func Dotted(e syntax.Expr) (string, bool) {
	switch x := e.(type) {
	case *syntax.Name:
		return x.Name, true
	case *syntax.Field:
		left, ok := Dotted(x.X)
		return left + "." + x.Name.Name, ok
	}
	return "", false
}
