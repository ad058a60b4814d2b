package attribute

import (
	"maps"
	"path"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/syntax"
)

// find lists what differs between the two editions, sheet by sheet.
func (t *tracer) find() {
	t.at, t.cellwise, t.both = map[string]int{}, map[string]bool{}, map[string]bool{}
	names := slices.Sorted(maps.Keys(t.now.w.Source.Inputs))
	main := t.now.w.Source.Main.Name
	slices.SortStableFunc(names, func(a, b string) int {
		switch {
		case a == main:
			return -1
		case b == main:
			return 1
		}
		return 0
	})
	for _, name := range names {
		old, now := t.old.w.Source.Inputs[name], t.now.w.Source.Inputs[name]
		if old == nil {
			continue // its use is the cause
		}
		if now.Tree == nil || old.Tree == nil {
			t.data(name, old, now)
			continue
		}
		t.statements(name, old.Tree, now.Tree)
		t.tables(name, old.Tables, now.Tables)
	}
}

func (t *tracer) add(sheet, key string, c report.Cause) {
	t.at[sheet+"\x00"+key] = len(t.elements)
	t.elements = append(t.elements, element{c, sheet, key})
}

// statements compares what stands under each key.
func (t *tracer) statements(sheet string, old, now *syntax.Tree) {
	before := map[string]syntax.Statement{}
	for _, s := range old.Statements {
		if key := statementKey(s); key != "" && before[key] == nil {
			before[key] = s
		}
	}
	seen := map[string]bool{}
	for _, s := range now.Statements {
		key := statementKey(s)
		if key == "" || seen[key] {
			continue
		}
		seen[key] = true
		if c, differs := t.differ(sheet, before[key], s); differs {
			t.put(sheet, key, c, before[key], s)
		}
	}
	for _, s := range old.Statements {
		if key := statementKey(s); key != "" && !seen[key] {
			seen[key] = true
			c, _ := t.differ(sheet, s, nil)
			t.put(sheet, key, c, s, nil)
		}
	}
}

// put keeps a cause. What stands in one edition only, under a name that means
// nothing in the other, can stand in every mixture: whoever uses it has changed.
func (t *tracer) put(sheet, key string, c report.Cause, old, now syntax.Statement) {
	name := nameIn(old, now)
	switch {
	case old == nil && !t.old.knows(sheet, name), now == nil && !t.now.knows(sheet, name):
		t.both[sheet+"\x00"+key] = true
		t.apart = append(t.apart, c)
	default:
		t.add(sheet, key, c)
	}
}

// knows reports whether a name means something in a sheet of the edition.
func (e edition) knows(sheet, name string) bool {
	s := e.sheetNamed(sheet)
	if s == nil {
		return true
	}
	_, _, constant := library.Constant(name)
	_, function := library.Lookup(name)
	return constant || function || s.Names[name] != nil || s.Uses[name] != nil || s.Functions[name] != nil
}

// differ compares two statements of one key, of which one may be nil.
func (t *tracer) differ(sheet string, old, now syntax.Statement) (report.Cause, bool) {
	a, b := written(old), written(now)
	if a == b {
		return report.Cause{}, false
	}
	name := t.shown(sheet, nameIn(old, now))
	textA, textB := t.old.formula(sheet, old), t.now.formula(sheet, now)
	x, okX := old.(*syntax.Definition)
	y, okY := now.(*syntax.Definition)
	switch {
	case okX && okY && syntax.Plain(x.Value) && syntax.Plain(y.Value):
		return t.plain(sheet, name, x, y)
	case !okX && okY && syntax.Plain(y.Value), !okY && okX && syntax.Plain(x.Value):
		return report.Cause{Name: name, Old: textA, New: textB}, true
	case okX || okY:
		return report.Cause{Name: "the formula of " + name, Old: textA, New: textB}, true
	}
	if _, isUse := either(old, now).(*syntax.Use); isUse {
		return report.Cause{Name: "the use of " + name, Old: a, New: b}, true
	}
	return report.Cause{Name: "the formula of " + name + "(…)", Old: textA, New: textB}, true
}

// formula is the right side of a statement as the builder wrote it.
func (e edition) formula(sheet string, s syntax.Statement) string {
	switch x := s.(type) {
	case *syntax.Definition:
		return e.w.Source.Sheets[sheet].Text(x.Value.Place())
	case *syntax.Function:
		return e.w.Source.Sheets[sheet].Text(x.Body.Place())
	}
	return ""
}

func either(a, b syntax.Statement) syntax.Statement {
	if b != nil {
		return b
	}
	return a
}

func nameIn(old, now syntax.Statement) string {
	switch x := either(old, now).(type) {
	case *syntax.Definition:
		return x.Name.Name
	case *syntax.Function:
		return x.Name.Name
	}
	return either(old, now).(*syntax.Use).Under()
}

// written is what a statement says, whatever its blanks.
func written(s syntax.Statement) string {
	switch x := s.(type) {
	case *syntax.Definition:
		return unitText(x.Unit) + syntax.Source(x.Value)
	case *syntax.Function:
		return paramsText(x.Params) + " = " + unitText(x.Unit) + syntax.Source(x.Body)
	case *syntax.Use:
		if x.Columns == nil {
			return x.Path.Value
		}
		return x.Path.Value + " " + paramsText(x.Columns)
	}
	return ""
}

func unitText(u *syntax.Unit) string {
	if u == nil {
		return ""
	}
	return "[" + u.Text + "] "
}

func paramsText(list []syntax.Param) string {
	var parts []string
	for _, p := range list {
		parts = append(parts, strings.TrimSpace(p.Name.Name+" "+unitText(p.Unit)))
	}
	return "(" + strings.Join(parts, ", ") + ")"
}

// plain compares two plain values by what they are, not by how they are written.
func (t *tracer) plain(sheet, name string, old, now *syntax.Definition) (report.Cause, bool) {
	a, textA := t.old.valueOf(sheet, old)
	b, textB := t.now.valueOf(sheet, now)
	_, surelyA := old.Value.(*syntax.Uncertain)
	_, surelyB := now.Value.(*syntax.Uncertain)
	if a != nil && isScalar(a) && isScalar(b) && report.SameValue(a, b) && !surelyA && !surelyB {
		return report.Cause{}, false
	}
	return report.Cause{Name: name, Old: textA, New: textB}, true
}

func isScalar(v any) bool {
	switch v.(type) {
	case float64, bool, string:
		return true
	}
	return false
}

// valueOf is what a plain value came to, and how it is shown.
func (e edition) valueOf(sheet string, x *syntax.Definition) (any, string) {
	s := e.sheetNamed(sheet)
	if s == nil || s.Names[x.Name.Name] == nil {
		return nil, syntax.Source(x.Value)
	}
	d := s.Names[x.Name.Name]
	value := e.w.Machine.Value(d)
	if _, sure := x.Value.(*syntax.Uncertain); isScalar(value) && !sure {
		if text, ok := show.Value(d.Type, value, d.Written(), show.Digits(e.w.Program.Main, d.Name)); ok {
			return value, text
		}
	}
	return value, syntax.Source(x.Value)
}

// shown is a name as the main sheet would write it.
func (t *tracer) shown(sheet, name string) string {
	if sheet == t.now.w.Source.Main.Name {
		return name
	}
	for _, e := range []edition{t.now, t.old} {
		for _, use := range slices.Sorted(maps.Keys(e.w.Program.Main.Uses)) {
			if e.w.Program.Main.Uses[use].Name == sheet {
				return use + "." + name
			}
		}
	}
	return path.Base(sheet) + ": " + name
}
