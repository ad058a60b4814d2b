package check

import (
	"path"
	"strings"

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
	// uncertain counts the offsets so far, against MaxOffsets.
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

func (c *collector) use(s *Sheet, x *syntax.Use) {
	name := x.As
	if name.Name == "" {
		name = syntax.Ident{At: x.Path.At, Name: UseName(x)}
		if !syntax.IsName(name.Name) {
			s.fail(x.Path.Span, quote(name.Name)+" cannot be a name", "say what it goes under: use \""+x.Path.Value+"\" as parts")
			return
		}
	}
	in, err := c.load(s.Name, x.Path.Value)
	if err != nil {
		s.fail(x.Path.Span, quote(x.Path.Value)+" "+err.Error(), "")
		s.Broken = append(s.Broken, name.Name)
		return
	}
	if in.Tree == nil {
		c.useData(s, x, in, name)
		return
	}
	c.useSheet(s, x, in, name)
}

// useData takes a file that is one table.
func (c *collector) useData(s *Sheet, x *syntax.Use, in *Input, name syntax.Ident) {
	if len(in.Problems) > 0 {
		p := in.Problems[0]
		s.say(message.Diagnostic{Span: x.Path.Span, Summary: "cannot use " + quote(x.Path.Value) + ": " + p.Summary, Hint: p.Hint,
			Notes: []message.Note{{Span: p.Span, Text: "here"}}})
		s.Broken = append(s.Broken, name.Name)
		return
	}
	t := *in.Tables[0]
	if x.Columns != nil {
		t.Columns = x.Columns
	}
	d := c.table(s, &t, name)
	d.Stmt, d.Block = x, x.Block
	s.UsesOrder = append(s.UsesOrder, in.Name)
}

func (c *collector) useSheet(s *Sheet, x *syntax.Use, in *Input, name syntax.Ident) {
	if x.Columns != nil {
		s.fail(x.Path.Span, "columns are named for a CSV file only", "a worksheet's tables name their own columns")
		return
	}
	if s.Names[name.Name] != nil || s.Uses[name.Name] != nil {
		s.fail(name.Span, quote(name.Name)+" is defined twice", "say another name: use \""+x.Path.Value+"\" as parts")
		return
	}
	for i, open := range c.open {
		if open == in.Name {
			chain := append(append([]string{}, c.open[i:]...), in.Name)
			s.fail(x.Path.Span, "worksheets use each other in a circle: "+strings.Join(chain, " → "), "take one of these use lines out")
			s.Broken = append(s.Broken, name.Name)
			return
		}
	}
	if len(c.open) > MaxUseDepth {
		s.fail(x.Path.Span, "worksheets use each other too deeply", "at most 16 may stand in one chain")
		s.Broken = append(s.Broken, name.Name)
		return
	}
	used := c.byName[in.Name]
	if used == nil {
		used = c.sheet(*in)
	}
	s.Uses[name.Name] = used
	s.UsesOrder = append(s.UsesOrder, in.Name)
}

func (s *Sheet) digits(x *syntax.Digits) {
	n := int(x.Count.Value)
	if float64(n) != x.Count.Value || n < 1 || n > maxDigits || x.Count.Unit != nil {
		s.fail(x.Count.Span, "digits wants a whole number from 1 to 15", "for example: digits 3")
		return
	}
	if len(x.Names) == 0 {
		s.Digits = n
	}
	for _, e := range x.Names {
		if name, ok := dotted(e); ok {
			s.DigitsOf[name] = n
			s.digitsNames = append(s.digitsNames, syntax.Ident{At: syntax.At{Span: e.Place()}, Name: name})
		}
	}
}

// The bounds of draws.
const (
	MinDraws = 1_000
	MaxDraws = 10_000_000
)

func (s *Sheet) draws(x *syntax.Draws) {
	n := int(x.Count.Value)
	switch {
	case float64(n) != x.Count.Value || n < MinDraws || n > MaxDraws || x.Count.Unit != nil:
		s.fail(x.Count.Span, "draws wants a whole number from 1000 to 10,000,000", "for example: draws 100_000")
	case s.Draws > 0:
		s.fail(x.Span, "draws is said twice", "take one of the two lines out")
	default:
		s.Draws = n
	}
}

// maxDigits is what a float64 can carry.
const maxDigits = 15

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

// UseName is the name that a used file goes under: what as says, else its own
// without folder and ending.
func UseName(x *syntax.Use) string {
	if x.As.Name != "" {
		return x.As.Name
	}
	base := path.Base(x.Path.Value)
	return syntax.Canonical(strings.TrimSuffix(base, path.Ext(base)))
}

// Dotted is a name or field as written, "store.capacitance"; false for any other
// expression.
func Dotted(e syntax.Expr) (string, bool) { return dotted(e) }

// dotted is a name or field as written: "store.capacitance".
func dotted(e syntax.Expr) (string, bool) {
	switch x := e.(type) {
	case *syntax.Name:
		return x.Name, true
	case *syntax.Field:
		left, ok := dotted(x.X)
		return left + "." + x.Name.Name, ok
	}
	return "", false
}
