package library

import (
	"strconv"
	"strings"
)

// A Letter says what a letter of a function's formula stands for.
type Letter struct {
	Name   string // C1
	Path   string // the input, result, or field in them: "cell.capacitance"
	Result bool   // it is of the result
	Count  bool   // how many there are of that: "n #values"
	Index  bool   // their places in the list, from 0: "j index masses"
	At     int    // one of a column, from 1: "T1 = at 1 history.V"; the last by -1; 0 for all of it
	Else   string // what it is where that was not given: "k store.capacitance_slope or 0 F/V", "I current or bec.current"
}

// Whole is the path of a result that is one value.
const Whole = "result"

// LetterList are the letters of the formula, as the doc comment has them: "C1
// cell.capacitance" for an input, "C = capacitance" for a result.
func (d *Doc) LetterList() (list []Letter) {
	for part := range strings.SplitSeq(d.Letters, ";") {
		name, path, ok := strings.Cut(strings.TrimSpace(part), " ")
		if !ok {
			continue
		}
		l := Letter{Name: name}
		path, l.Else, _ = strings.Cut(path, " or ")
		path, l.Result = strings.CutPrefix(path, "= ")
		path, l.Count = strings.CutPrefix(path, "#")
		path, l.Index = strings.CutPrefix(path, "index ")
		if rest, ok := strings.CutPrefix(path, "at "); ok {
			place, of, _ := strings.Cut(rest, " ")
			l.At, _ = strconv.Atoi(place)
			path = of
		}
		l.Path = path
		list = append(list, l)
	}
	return list
}

// fields are those of a record, or of the rows of a table or a list.
func (s Shape) fields() []Param {
	if s.Elem != nil {
		return s.Elem.Params
	}
	return s.Params
}
