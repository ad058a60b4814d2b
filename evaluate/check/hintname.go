package check

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// unknown says that a name means nothing, with the nearest that does.
func (c *checker) unknown(x *syntax.Name) {
	hint := ""
	switch {
	case c.sheet.Functions[x.Name] != nil || isFunction(x.Name):
		hint = "it is a function: call it with brackets, " + message.Quote(x.Name+"(…)")
	case c.sheet.Uses[x.Name] != nil:
		hint = "it is a worksheet: write which of its quantities, " + message.Quote(x.Name+".name")
	case magnetGrade.MatchString(x.Name):
		product := magnetGrade.FindStringSubmatch(x.Name)[1]
		hint = "for a magnet of that grade write " + message.Quote("magnet_grade(energy_product: "+product+" MGOe).remanence")
	default:
		hint = c.nearest(x.Name)
	}
	c.fail(x.Span, "no quantity "+message.Quote(x.Name)+" here", hint)
}

// magnetGrade is a magnet's grade as the trade writes it: its energy product in MGOe.
var magnetGrade = regexp.MustCompile(`^N(3[05]|3[38]|4[0258]|5[025])[A-Z]{0,2}$`)

func isFunction(name string) bool {
	_, ok := library.Lookup(name)
	return ok
}

func (c *checker) nearest(name string) string {
	near := c.nearParam(name)
	if near == "" {
		near = c.whole.speller.Nearest(name, c.sheet.spelled())
	}
	if near != "" {
		return "did you mean " + message.Quote(near) + "?"
	}
	if _, err := units.Parse(name); err == nil {
		return "the unit " + message.Quote(name) + " stands behind a number: " + message.Quote("1 "+name)
	}
	return "define it: " + message.Quote(name+" = …")
}

// keysOf are the names of a table's rows in order.
func (a *analysis) keysOf(rows *program.Rows) []string {
	if a.keys[rows] == nil {
		a.keys[rows] = slices.Sorted(maps.Keys(rows.Keys))
	}
	return a.keys[rows]
}

// callable are the names of what a sheet can call, in order.
func (s *sheet) callable() []string {
	if s.calls == nil {
		for _, f := range library.All() {
			s.calls = append(s.calls, f.Name)
		}
		s.calls = append(s.calls, slices.Collect(maps.Keys(s.Functions))...)
		slices.Sort(s.calls)
	}
	return s.calls
}

// spelled are the names of a sheet in order.
func (s *sheet) spelled() []string {
	if len(s.spelling) != len(s.Names) {
		s.spelling = slices.Sorted(maps.Keys(s.Names))
	}
	return s.spelling
}

func (c *checker) unknownFunction(x *syntax.Call) {
	hint := "`inkwing explain` lists the functions"
	switch near := c.whole.speller.Nearest(x.Func.Name, c.sheet.callable()); {
	case c.def.Name == x.Func.Name:
		hint = "the name is this line's own; " + hint
	case c.isQuantity(x.Func.Name):
		hint = "it is a quantity: to multiply write " + message.Quote(x.Func.Name+" * (…)")
	case near != "":
		hint = "did you mean " + message.Quote(near) + "?"
	}
	c.fail(x.Func.Span, "no function "+message.Quote(x.Func.Name), hint)
}

func (c *checker) noFields(x *syntax.Field, left program.Node) {
	c.fail(x.Span, left.Type().String()+" has no parts", "a point joins a record to its field: "+message.Quote("store.capacitance"))
}

// roundBracket is a heading with its unit in the wrong brackets.
var roundBracket = regexp.MustCompile(`^(.*?) ?\(([^()]+)\)$`)

// rowNamed is the hint for a row that is asked for as if it were a column.
func rowNamed(x *syntax.Field, left program.Node) string {
	ref, ok := left.(*program.Ref)
	if !ok || ref.Def.Rows() == nil {
		return ""
	}
	if _, found := ref.Def.Rows().Row(x.Name.Name); !found {
		return ""
	}
	return "a row is found by its key: write " + message.Quote(ref.Def.Name+"[\""+x.Name.Name+"\"]")
}

// nearField is the field that was probably meant, "" for none.
func (c *checker) nearField(name string, fields []program.Field) string {
	return c.whole.speller.NearestOf(name, len(fields), func(i int) string { return fields[i].Name })
}

// unnamed is the first field whose heading is no name, -1 for none.
func (c *checker) unnamed(fields []program.Field) int {
	if !c.whole.speller.Look(len(fields)) {
		return -1
	}
	return slices.IndexFunc(fields, func(f program.Field) bool { return !syntax.IsName(f.Name) })
}

// maxFields is how many fields a message lists whole, as many as a record of the library
// has: a table may have thousands of columns.
const maxFields = 50

func allNames(fields []program.Field) string {
	if len(fields) > maxFields {
		return program.FieldNames(fields)
	}
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	return strings.Join(names, ", ")
}

func (c *checker) noField(x *syntax.Field, fields []program.Field) {
	hint := "it has " + allNames(fields)
	if i := c.unnamed(fields); i >= 0 {
		written := strings.ReplaceAll(fields[i].Name, "_", " ")
		hint = "a heading is a name of letters, digits and blanks, with its unit, such as `mass [g]`; " + message.Quote(written) + " is none"
		if m := roundBracket.FindStringSubmatch(written); m != nil {
			hint = "a unit stands in square brackets: write the heading " + message.Quote(m[1]+" ["+m[2]+"]")
		}
	} else if near := c.nearField(x.Name.Name, fields); near != "" {
		hint = didYouMean(near, hint)
	}
	c.fail(x.Name.Span, "no "+message.Quote(x.Name.Name)+" in it", hint)
}

func (c *checker) notInUsed(x *syntax.Field, used *program.Sheet) {
	hint := ""
	if near := c.whole.speller.Nearest(x.Name.Name, c.whole.sheets[used].spelled()); near != "" {
		hint = "did you mean " + message.Quote(near) + "?"
	}
	c.fail(x.Name.Span, "no "+message.Quote(x.Name.Name)+" in "+message.Quote(used.Name), hint)
}

func (c *checker) noRow(x *syntax.Index, table string, rows *program.Rows, key string) {
	hint, keys := "", c.whole.keysOf(rows)
	if near := c.whole.speller.Nearest(key, keys); near != "" {
		hint = "did you mean \"" + near + "\"?"
	} else if len(keys) <= program.MaxNames {
		hint = "it has \"" + strings.Join(keys, "\", \"") + "\""
	}
	c.fail(x.Key.Place(), "no row \""+key+"\" in "+message.Quote(table), hint)
}
