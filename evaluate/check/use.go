package check

import (
	"path"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

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

// UseName is the name that a used file goes under: what as says, else its own
// without folder and ending.
func UseName(x *syntax.Use) string {
	if x.As.Name != "" {
		return x.As.Name
	}
	base := path.Base(x.Path.Value)
	return syntax.Canonical(strings.TrimSuffix(base, path.Ext(base)))
}
