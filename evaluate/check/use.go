package check

import (
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

func (a *analysis) use(s *sheet, x *syntax.Use) {
	name := x.As
	if name.Name == "" {
		name = syntax.Ident{At: x.Path.At, Name: x.Under()}
		if !syntax.IsName(name.Name) {
			s.fail(x.Path.Span, message.Quote(name.Name)+" cannot be a name", "say what it goes under: use \""+x.Path.Value+"\" as parts")
			return
		}
	}
	in, err := a.load(s.Name, x.Path.Value)
	if err != nil {
		s.fail(x.Path.Span, message.Quote(x.Path.Value)+" "+err.Error(), "")
		s.Broken[name.Name] = true
		return
	}
	if in.Tree == nil {
		a.useData(s, x, in, name)
		return
	}
	a.useSheet(s, x, in, name)
}

// useData takes a file that is one table.
func (a *analysis) useData(s *sheet, x *syntax.Use, in *Input, name syntax.Ident) {
	if len(in.Problems) > 0 {
		p := in.Problems[0]
		s.say(message.Diagnostic{Span: x.Path.Span, Summary: "cannot use " + message.Quote(x.Path.Value) + ": " + p.Summary, Hint: p.Hint,
			Notes: []message.Note{{Span: p.Span, Text: "here"}}})
		s.Broken[name.Name] = true
		return
	}
	t := *in.Tables[0]
	if x.Columns != nil {
		t.Columns = x.Columns
	} else if isData(t.Head) {
		s.fail(x.Path.Span, "the first row of "+message.Quote(x.Path.Value)+" holds numbers, and no headings", "name its columns: "+message.Quote("use \""+x.Path.Value+"\" (t [s], U [V])")+", or put a row of headings above")
		s.Broken[name.Name] = true
		return
	}
	d := a.table(s, &t, name)
	d.Stmt, d.Block = x, x.Block
	s.UsesOrder = append(s.UsesOrder, in.Name)
}

// isData reports whether a row of headings is a row of numbers.
func isData(head []syntax.Cell) bool {
	for _, cell := range head {
		text := strings.TrimSpace(cell.Text)
		if _, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64); err != nil {
			return false
		}
	}
	return len(head) > 0
}

func (a *analysis) useSheet(s *sheet, x *syntax.Use, in *Input, name syntax.Ident) {
	if x.Columns != nil {
		s.fail(x.Path.Span, "columns are named for a CSV file only", "a worksheet's tables name their own columns")
		return
	}
	if s.Names[name.Name] != nil || s.Uses[name.Name] != nil {
		s.fail(name.Span, message.Quote(name.Name)+" is defined twice", "say another name: use \""+x.Path.Value+"\" as parts")
		return
	}
	for i, open := range a.open {
		if open == in.Name {
			chain := append(append([]string{}, a.open[i:]...), in.Name)
			s.fail(x.Path.Span, "worksheets use each other in a circle: "+strings.Join(chain, " → "), "take one of these use lines out")
			s.Broken[name.Name] = true
			return
		}
	}
	if len(a.open) > MaxUseDepth {
		s.fail(x.Path.Span, "worksheets use each other too deeply", "at most 16 may stand in one chain")
		s.Broken[name.Name] = true
		return
	}
	used := a.byName[in.Name]
	if used == nil {
		used = a.sheet(*in)
	}
	s.Use(name.Name, used.Sheet)
	s.UsesOrder = append(s.UsesOrder, in.Name)
}
