package main

import "inkwing/evaluate/report"

type jsonStory struct {
	Schema int      `json:"schema"`
	Path   string   `json:"path"`
	Step   jsonStep `json:"quantity"`
}

type jsonStep struct {
	Name    string       `json:"name"`
	Path    string       `json:"path,omitempty"` // of the used file that defines it
	Shown   string       `json:"shown"`
	Formula string       `json:"formula"`
	Put     string       `json:"put"` // the formula with the values put in
	Given   bool         `json:"given"`
	Where   string       `json:"where,omitempty"` // of a cell or row
	Note    string       `json:"note"`
	Waits   string       `json:"waits,omitempty"`
	Error   string       `json:"error,omitempty"`
	Above   bool         `json:"above,omitempty"` // told further up
	Calls   []jsonCalled `json:"calls"`
	From    []jsonStep   `json:"from"`
}

type jsonCalled struct {
	Name      string         `json:"name"`
	Own       bool           `json:"own"`
	Says      string         `json:"says"`
	Arguments []jsonArgument `json:"arguments"`
}

type jsonArgument struct {
	Name  string `json:"name"`
	Text  string `json:"text"`
	Shown string `json:"shown"`
}

func (o *opened) step(s *report.Step) jsonStep {
	out := jsonStep{Name: s.Name, Shown: s.Shown, Formula: s.Formula, Put: s.Substituted, Given: s.Given, Where: s.Where, Note: s.Note,
		Waits: s.Waits, Error: s.Fault, Above: s.Above, Calls: []jsonCalled{}, From: []jsonStep{}}
	if s.Path != o.name {
		out.Path = o.display(s.Path)
	}
	for _, c := range s.Calls {
		x := jsonCalled{c.Name, c.Own, c.Summary, []jsonArgument{}}
		for _, a := range c.Arguments {
			x.Arguments = append(x.Arguments, jsonArgument(a))
		}
		out.Calls = append(out.Calls, x)
	}
	for _, from := range s.Dependencies {
		out.From = append(out.From, o.step(from))
	}
	return out
}
