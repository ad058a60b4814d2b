package library

import "strings"

// A Letter says what a letter of a function's formula stands for.
type Letter struct {
	Name   string // C1
	Path   string // the input, result, or field in them: "cell.capacitance"
	Result bool   // it is of the result
	Count  bool   // how many there are of that: "n #values"
	Else   string // what it is where that was not given: "k store.capacitance_slope or 0 F/V"
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
		l.Path, l.Count = strings.CutPrefix(path, "#")
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
