package wire

import (
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/manual"
	"inkwing/evaluate/report"
	"inkwing/units"
)

// A Contents is what a worksheet names.
type Contents struct {
	Schema  int        `json:"schema"`
	Path    string     `json:"path"`
	Inputs  []Quantity `json:"inputs"` // what can be changed
	Results []Quantity `json:"results"`
	Reach   []Input    `json:"can_change"` // the inputs, the numbers inside calls, and the cells
}

// OfContents is the form of what a worksheet names.
func OfContents(path string, r *report.Report, inputs []report.Input, places Places) Contents {
	f := former{places, r.Sheet}
	c := Contents{Schema: Schema, Path: path, Inputs: []Quantity{}, Results: []Quantity{}, Reach: f.inputs(inputs)}
	for _, q := range r.Quantities {
		x := Quantity{Name: q.Name, Scalar: scalar(q), Given: q.Given, Note: q.Note}
		x.spread(q.Uncertainty)
		if q.Given {
			c.Inputs = append(c.Inputs, x)
		} else {
			c.Results = append(c.Results, x)
		}
	}
	return c
}

// A Manual is what was looked up of the language.
type Manual struct {
	Schema    int        `json:"schema"`
	Functions []Function `json:"functions"`
	Constants []Constant `json:"constants"`
	Units     []Unit     `json:"units"`
	Cautions  []Hazard   `json:"cautions"`
	Words     []Word     `json:"words"`
}

// A Word is a statement or keyword of the language.
type Word struct {
	Name    string   `json:"name"`
	Also    []string `json:"also"`
	Form    string   `json:"form"`
	Text    string   `json:"text"`
	Example string   `json:"example"`
}

// A Function is one of the library.
type Function struct {
	Name      string   `json:"name"`
	Topic     string   `json:"topic"`
	Signature string   `json:"signature"`
	Summary   string   `json:"summary"`
	Text      string   `json:"text"`
	Takes     []Field  `json:"takes"`
	Gives     []Field  `json:"gives"` // one without a name where the result is a bare value
	Formula   string   `json:"formula"`
	Validity  string   `json:"validity"`
	Source    string   `json:"source"`
	Example   string   `json:"example"`
	Cautions  []string `json:"cautions"` // that it may raise
}

// A Field is a parameter, a field of a record or a column.
type Field struct {
	Name     string   `json:"name"`
	Kind     string   `json:"kind"` // quantity, whole, truth, text, list, record, table
	Unit     string   `json:"unit"`
	Required bool     `json:"required"`
	Default  string   `json:"default"`
	Choose   string   `json:"choose"`
	Range    string   `json:"range"`
	Values   []string `json:"values,omitempty"`
	Fields   []Field  `json:"fields,omitempty"` // of a record or table
	Help     string   `json:"help"`
}

// A Constant is a named number.
type Constant struct {
	Name   string  `json:"name"`
	SI     float64 `json:"si"`
	SIUnit string  `json:"si_unit"`
	Help   string  `json:"help"`
	Source string  `json:"source"`
}

// A Unit is one that the language reads.
type Unit struct {
	Symbol   string   `json:"symbol"`
	Name     string   `json:"name"`
	Meaning  string   `json:"meaning"`
	Aliases  []string `json:"aliases"`
	Prefixes bool     `json:"prefixes"`
	SI       string   `json:"si"`
	Source   string   `json:"source"`
}

// A Hazard is a caution as the library may raise it, its values shown as ….
type Hazard struct {
	ID       string   `json:"id"`
	Topic    string   `json:"topic"`
	Level    string   `json:"level"`
	Standing bool     `json:"standing"`
	Says     string   `json:"says"`
	Why      string   `json:"why"`
	Mend     string   `json:"mend"`
	Source   string   `json:"source"`
	RaisedBy []string `json:"raised_by"`
}

// OfManual is the form of what was looked up.
func OfManual(e *manual.Entries) Manual {
	out := Manual{Schema: Schema, Functions: []Function{}, Constants: []Constant{}, Units: []Unit{}, Cautions: []Hazard{}, Words: []Word{}}
	for _, f := range e.Functions {
		out.Functions = append(out.Functions, function(f))
	}
	for _, c := range e.Constants {
		out.Constants = append(out.Constants, Constant{c.Name, c.Value, units.MustParse(c.Unit).Kind.Dim.SIUnit(), c.Help, c.Source})
	}
	for _, u := range e.Units {
		out.Units = append(out.Units, Unit{u.Symbol, u.Name, u.Meaning, append([]string{}, u.Aliases...), u.Prefixes, u.InSI(), u.Source})
	}
	for _, c := range e.Cautions {
		out.Cautions = append(out.Cautions, Hazard{c.ID, c.Topic, c.Level.String(), c.Standing, model.Sketch(c.Summary), model.Sketch(c.Why), model.Sketch(c.Hint), c.Source, append([]string{}, library.Raisers(c.ID)...)})
	}
	for _, w := range e.Words {
		out.Words = append(out.Words, Word{w.Name, append([]string{}, w.Also...), w.Form, w.Summary, w.Example})
	}
	return out
}

func function(f *library.Function) Function {
	gives := []library.Param{{Shape: f.Result}}
	if f.Result.Kind == library.RecordOf {
		gives = f.Result.Params
	}
	raised := []string{}
	for _, c := range library.CautionsOf(f.Name) {
		raised = append(raised, c.ID)
	}
	return Function{f.Name, f.Topic, f.Signature(), f.Doc.Summary, f.Doc.Text, fields(f.Params), fields(gives),
		f.Doc.Formula, f.Doc.Validity, f.Doc.Source, f.Doc.Example, raised}
}

func fields(params []library.Param) []Field {
	out := []Field{}
	for _, p := range params {
		unit := strings.Trim(p.Shape.UnitText(), "[]")
		x := Field{Name: p.Name, Kind: kindNames[p.Shape.Kind], Unit: unit, Required: p.Required(),
			Default: p.Shown, Choose: p.Choose, Range: p.Range.Text, Values: p.Shape.Values, Help: p.Help}
		if len(p.Shape.Params) > 0 {
			x.Fields = fields(p.Shape.Params)
		}
		out = append(out, x)
	}
	return out
}

var kindNames = map[library.Kind]string{
	library.Quantity: "quantity", library.Integer: "whole", library.Bool: "truth", library.Text: "text",
	library.ListOf: "list", library.RecordOf: "record", library.Table: "table",
}
