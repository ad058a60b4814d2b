package wire

import (
	"inkwing/evaluate/report"
)

// A Story is how a quantity of a worksheet came about.
type Story struct {
	Schema int    `json:"schema"`
	Path   string `json:"path"`
	Step   Step   `json:"quantity"`
}

// A Step is one quantity of it.
type Step struct {
	Name    string   `json:"name"`
	Path    string   `json:"path,omitempty"` // of the used file that defines it
	Shown   string   `json:"shown"`
	Formula string   `json:"formula"`
	Put     string   `json:"put"` // the formula with the values put in
	Given   bool     `json:"given"`
	Where   string   `json:"where,omitempty"` // of a cell or row
	Note    string   `json:"note"`
	Waits   string   `json:"waits,omitempty"`
	Error   string   `json:"error,omitempty"`
	Above   bool     `json:"above,omitempty"` // told further up
	Calls   []Called `json:"calls"`
	From    []Step   `json:"from"`
}

// A Called is a function in its formula.
type Called struct {
	Name      string     `json:"name"`
	Own       bool       `json:"own"`
	Says      string     `json:"says"`
	Arguments []Argument `json:"arguments"`
	Formula   string     `json:"formula"`  // of the library
	Put       string     `json:"put"`      // the values put in, as far as it names them
	Fields    []Argument `json:"fields"`   // that it reads of records
	Defaults  []Argument `json:"defaults"` // that nobody gave, and that bear on the result
}

// An Argument is what was given for a parameter.
type Argument struct {
	Name  string `json:"name"`
	Text  string `json:"text"`
	Shown string `json:"shown"`
}

// OfStory is the form of how a quantity came about; name is under which the run
// knows the worksheet that was asked.
func OfStory(path, name string, step *report.Step, places Places) Story {
	return Story{Schema, path, former{places, name}.step(step)}
}

func (f former) step(s *report.Step) Step {
	out := Step{Name: s.Name, Path: f.other(s.Path), Shown: s.Shown, Formula: s.Formula, Put: s.Substituted, Given: s.Given, Where: s.Where, Note: s.Note,
		Waits: s.Waits, Error: s.Fault, Above: s.Above, Calls: []Called{}, From: []Step{}}
	for _, c := range s.Calls {
		out.Calls = append(out.Calls, Called{c.Name, c.Own, c.Summary, arguments(c.Arguments), c.Formula, c.Put, arguments(c.Fields), arguments(c.Defaults)})
	}
	for _, from := range s.Dependencies {
		out.From = append(out.From, f.step(from))
	}
	return out
}

func arguments(list []report.Argument) []Argument {
	out := []Argument{}
	for _, a := range list {
		out = append(out, Argument{a.Name, a.Text, a.Shown})
	}
	return out
}
