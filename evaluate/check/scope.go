package check

import (
	"cmp"
	"maps"
	"slices"

	"inkwing/evaluate/program"
)

// A rowScope is the columns of a table in what is asked of each of its rows: they hide
// the names outside. Of a thousand columns few are named, and only those become
// parameters.
type rowScope struct {
	columns []program.Field
	params  map[int]*program.Param // by the column
	outer   *rowScope
}

// at is the parameter that a column is.
func (r *rowScope) at(column int) *program.Param {
	if r.params[column] == nil {
		r.params[column] = &program.Param{Name: r.columns[column].Name, Type: r.columns[column].Type}
	}
	return r.params[column]
}

// named are the columns among some parameters, in order.
func (r *rowScope) named(used map[*program.Param]bool) (list []program.RowParam) {
	for column, p := range r.params {
		if used[p] {
			list = append(list, program.RowParam{Param: p, Column: column})
		}
	}
	slices.SortFunc(list, func(a, b program.RowParam) int { return cmp.Compare(a.Column, b.Column) })
	return list
}

// param is the column or the parameter of the builder's function that a name means; nil
// for none.
func (c *checker) param(name string) *program.Param {
	for r := c.row; r != nil; r = r.outer {
		if i := c.whole.place(r.columns, name); i >= 0 {
			return r.at(i)
		}
	}
	return c.params[name]
}

// hides reports whether a name means a column or a parameter, and nothing outside.
func (c *checker) hides(name string) bool { return c.param(name) != nil }

// nearParam is the column or parameter that was probably meant, "" for none.
func (c *checker) nearParam(name string) string {
	n := len(c.params)
	for r := c.row; r != nil; r = r.outer {
		n += len(r.columns)
	}
	var names []string
	return c.whole.speller.NearestOf(name, n, func(i int) string {
		if names == nil {
			names = c.paramNames()
		}
		return names[i]
	})
}

// paramNames are the names of all parameters and columns, in order.
func (c *checker) paramNames() []string {
	names := slices.Collect(maps.Keys(c.params))
	for r := c.row; r != nil; r = r.outer {
		for _, f := range r.columns {
			names = append(names, f.Name)
		}
	}
	slices.Sort(names)
	return names
}

// manyFields is from how many on the places of fields are kept by their names.
const manyFields = 20

// place is [program.IndexOf], also where many lines ask for one of many columns.
func (a *analysis) place(fields []program.Field, name string) int {
	if len(fields) < manyFields {
		return program.IndexOf(fields, name)
	}
	places := a.places[&fields[0]]
	if places == nil {
		places = make(map[string]int, len(fields))
		for i := len(fields) - 1; i >= 0; i-- {
			places[fields[i].Name] = i
		}
		a.places[&fields[0]] = places
	}
	if i, known := places[name]; known {
		return i
	}
	return -1
}

// hidden are the names that columns or parameters hide.
type hidden struct {
	names map[string]bool
	outer *hidden
}

func (h *hidden) has(name string) bool {
	for ; h != nil; h = h.outer {
		if h.names[name] {
			return true
		}
	}
	return false
}
