package explain

import (
	"strconv"
	"strings"
	"sync"
	"unicode"

	"inkwing/evaluate/explain/internal/equation"
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// A bound call is one whose formula's letters have values, with the texts that show them.
type bound struct {
	clauses []equation.Clause
	letters []library.Letter
	values  map[string]equation.Value
	texts   equation.Texts
}

// bind gives the letters of a call's formula the values that they have in it: those of
// arguments and of their fields, of the result, and what clauses define by the way. The
// texts that are known stand by the paths of the arguments.
func (e *explainer) bind(d *program.Def, x *program.Call, texts map[string]string) *bound {
	args, result, ok := e.valuesOf(x)
	if !ok {
		return nil
	}
	b := &bound{clauses: clausesOf(x.Func), letters: x.Func.Doc.LetterList(), values: map[string]equation.Value{},
		texts: equation.Texts{Of: map[string]string{}, Absolute: map[string]string{}, Absent: map[string]bool{}}}
	for _, l := range b.letters {
		f := found{value: result, kind: kindOf(x), shape: x.Func.Result}
		if !l.Result {
			f = argument(x, args, l.Path)
		} else if l.Path != library.Whole {
			f = field(f.shape.Params, result, strings.Split(l.Path, "."))
			if f.shape.Dim != "" {
				f.kind = kindOfField(x.Type(), l.Path)
			}
		}
		if f.value == nil && isName(l.Else) {
			f, l.Path = argument(x, args, l.Else), l.Else
		}
		b.letter(l, f, texts, e.resultUnit(d, x, l), e.digits())
	}
	b.values = equation.Solve(b.clauses, b.values, closeEnough)
	for name, v := range b.values {
		if b.texts.Of[name] == "" {
			b.texts.Of[name] = inFormula(v, units.Unit{}, units.Kind{Dim: v.Dim}, e.digits())
		}
	}
	return b
}

// valuesOf are a call's arguments and what it came to; false for one that was not
// worked, or is worked for each of a list.
func (e *explainer) valuesOf(x *program.Call) (args []any, result any, ok bool) {
	if x.Each {
		return nil, nil, false
	}
	for i, a := range x.Args {
		if a == nil {
			args = append(args, x.Func.Params[i].Default)
			continue
		}
		value, fault := e.w.Machine.Node(a)
		if fault != nil {
			return nil, nil, false
		}
		args = append(args, value)
	}
	result, fault := e.w.Machine.Node(x)
	return args, result, fault == nil
}

// clausesKept are the formulas of the library as they were read, by their functions.
var clausesKept sync.Map

func clausesOf(f *library.Function) []equation.Clause {
	if kept, ok := clausesKept.Load(f); ok {
		return kept.([]equation.Clause)
	}
	var names []string
	for _, l := range f.Doc.LetterList() {
		names = append(names, l.Name)
	}
	clauses := equation.Read(f.Doc.Formula, names)
	clausesKept.Store(f, clauses)
	return clauses
}

// letter gives one its value and its texts.
func (b *bound) letter(l library.Letter, f found, texts map[string]string, unit units.Unit, digits int) {
	f = f.chosen(l)
	v, ok := numbers(f.value, f.kind.Dim)
	text := ""
	switch {
	case !ok && f.value == nil && l.Else != "":
		v, text, ok = otherwise(l.Else)
		b.texts.Absent[l.Name] = true
	case !l.Result && !l.Count && !l.Index && l.At == 0:
		text = texts[l.Path]
	}
	if !ok {
		return
	}
	if unit.IsZero() {
		unit = f.unit(v)
	}
	if text == "" {
		text = inFormula(v, unit, f.kind, digits)
	}
	b.values[l.Name], b.texts.Of[l.Name] = v, text
	if f.kind.Point {
		b.texts.Absolute[l.Name] = inFormula(v, units.MustParse("K"), units.Kind{}, digits)
	}
}

// chosen is what a letter stands for of a list: how many there are, their places, or one.
func (f found) chosen(l library.Letter) found {
	list, ok := f.value.(library.List)
	if rows, is := f.value.(library.Rows); is {
		list, ok = make(library.List, rows.Len()), true
	}
	switch {
	case l.Count && ok:
		return found{value: float64(len(list))}
	case l.Index && ok:
		places := make(library.List, len(list))
		for i := range places {
			places[i] = float64(i)
		}
		return found{value: places}
	case l.At == 0 || !ok:
		return f
	}
	at := l.At - 1
	if l.At < 0 {
		at = len(list) + l.At
	}
	if at < 0 || at >= len(list) {
		return found{}
	}
	return found{value: list[at], kind: f.kind, shape: f.shape}
}

// unit is that of the declaration where a fitting one says less: per cent and degrees,
// a torque, which is no joule, and F/V.
func (f found) unit(v equation.Value) units.Unit {
	declared := f.shape.Unit
	if f.shape.Elem != nil {
		declared = f.shape.Elem.Unit
	}
	if declared.IsZero() || declared.Kind.Dim != f.kind.Dim || len(v.Numbers) == 0 {
		return units.Unit{}
	}
	if f.kind.Dim.IsNumber() || strings.ContainsAny(declared.String(), "·/") {
		return declared
	}
	return units.Unit{}
}

// isName reports whether what a letter is otherwise is another input.
func isName(text string) bool { return text != "" && unicode.IsLetter(rune(text[0])) }

// otherwise is the value of a letter that was not given.
func otherwise(text string) (equation.Value, string, bool) {
	number, unit, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return equation.Value{}, "", false
	}
	u := units.MustParse("1")
	if unit != "" {
		u = units.MustParse(unit)
	}
	return equation.Number(u.ToSI(x), u.Kind.Dim), text, true
}

// numbers are those of a value.
func numbers(value any, dim units.Dimension) (equation.Value, bool) {
	switch v := value.(type) {
	case float64:
		return equation.Number(v, dim), true
	case library.List:
		out := equation.Value{Column: true, Dim: dim}
		for _, x := range v {
			number, ok := x.(float64)
			if !ok {
				return out, false
			}
			out.Numbers = append(out.Numbers, number)
		}
		return out, true
	}
	return equation.Value{}, false
}

// mostOfColumn is how many numbers of a column are written out.
const mostOfColumn = 4

// inFormula is a value as a formula shows it.
func inFormula(v equation.Value, unit units.Unit, kind units.Kind, digits int) string {
	var parts []string
	for i, x := range v.Numbers {
		if i == mostOfColumn-1 && len(v.Numbers) > mostOfColumn {
			parts = append(parts, "…")
			break
		}
		u := unit
		if u.IsZero() {
			u = units.Fitting(kind, x)
		}
		parts = append(parts, units.Show(x, u, digits))
	}
	if v.Column {
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return parts[0]
}

// resultUnit is the unit in which the builder sees what a letter stands for, where a
// line is nothing but the call, or a field of it.
func (e *explainer) resultUnit(d *program.Def, x *program.Call, l library.Letter) units.Unit {
	if d == nil || !l.Result {
		return units.Unit{}
	}
	n := d.Node()
	name := d.Shown(e.w.Program.Main)
	if of, ok := n.(*program.FieldOf); ok && of.X == program.Node(x) {
		if stmt, is := d.Stmt.(*syntax.Definition); is && strings.HasSuffix(syntax.Source(stmt.Value), "."+l.Path) {
			return e.unitNamed(name)
		}
		return units.Unit{}
	}
	if n != program.Node(x) {
		return units.Unit{}
	}
	if l.Path != library.Whole {
		name += "." + l.Path
	}
	return e.unitNamed(name)
}

// unitNamed is the unit of a quantity of the report.
func (e *explainer) unitNamed(name string) units.Unit {
	if e.byName == nil {
		e.index()
	}
	if q := e.byName[name]; q != nil {
		return q.Unit
	}
	return units.Unit{}
}
