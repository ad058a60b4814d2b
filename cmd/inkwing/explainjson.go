package main

import (
	"inkwing/evaluate/library"
	"inkwing/units"
)

type jsonExplanation struct {
	Schema    int            `json:"schema"`
	Functions []jsonFunction `json:"functions"`
	Constants []jsonConstant `json:"constants"`
	Units     []jsonUnit     `json:"units"`
	Cautions  []jsonHazard   `json:"cautions"`
	Words     []jsonWord     `json:"words"`
}

// A jsonWord is a statement or keyword of the language.
type jsonWord struct {
	Name    string   `json:"name"`
	Also    []string `json:"also"`
	Form    string   `json:"form"`
	Text    string   `json:"text"`
	Example string   `json:"example"`
}

type jsonFunction struct {
	Name      string      `json:"name"`
	Topic     string      `json:"topic"`
	Signature string      `json:"signature"`
	Summary   string      `json:"summary"`
	Text      string      `json:"text"`
	Takes     []jsonField `json:"takes"`
	Gives     []jsonField `json:"gives"` // one without a name where the result is a bare value
	Formula   string      `json:"formula"`
	Validity  string      `json:"validity"`
	Source    string      `json:"source"`
	Example   string      `json:"example"`
}

type jsonField struct {
	Name     string      `json:"name"`
	Kind     string      `json:"kind"` // quantity, whole, truth, text, list, record, table
	Unit     string      `json:"unit"`
	Required bool        `json:"required"`
	Default  string      `json:"default"`
	Choose   string      `json:"choose"`
	Range    string      `json:"range"`
	Values   []string    `json:"values,omitempty"`
	Fields   []jsonField `json:"fields,omitempty"` // of a record or table
	Help     string      `json:"help"`
}

type jsonConstant struct {
	Name   string  `json:"name"`
	SI     float64 `json:"si"`
	SIUnit string  `json:"si_unit"`
	Help   string  `json:"help"`
	Source string  `json:"source"`
}

type jsonUnit struct {
	Symbol   string   `json:"symbol"`
	Name     string   `json:"name"`
	Meaning  string   `json:"meaning"`
	Aliases  []string `json:"aliases"`
	Prefixes bool     `json:"prefixes"`
	SI       string   `json:"si"`
	Source   string   `json:"source"`
}

// A jsonHazard is a caution as the library may raise it, its values shown as ….
type jsonHazard struct {
	ID       string `json:"id"`
	Topic    string `json:"topic"`
	Level    string `json:"level"`
	Standing bool   `json:"standing"`
	Says     string `json:"says"`
	Why      string `json:"why"`
	Mend     string `json:"mend"`
	Source   string `json:"source"`
}

func (e *explanation) json() jsonExplanation {
	out := jsonExplanation{Schema: schema, Functions: []jsonFunction{}, Constants: []jsonConstant{}, Units: []jsonUnit{}, Cautions: []jsonHazard{}, Words: []jsonWord{}}
	for _, f := range e.functions {
		out.Functions = append(out.Functions, functionJSON(f))
	}
	for _, c := range e.constants {
		out.Constants = append(out.Constants, jsonConstant{c.Name, c.Value, units.MustParse(c.Unit).Kind.Dim.SIUnit(), c.Help, c.Source})
	}
	for _, u := range e.units {
		out.Units = append(out.Units, jsonUnit{u.Symbol, u.Name, u.Meaning, append([]string{}, u.Aliases...), u.Prefixes, inSI(u), u.Source})
	}
	for _, c := range e.cautions {
		out.Cautions = append(out.Cautions, jsonHazard{c.ID, c.Topic, levelName(c.Level), c.Standing, sketch(c.Summary), sketch(c.Why), sketch(c.Hint), c.Source})
	}
	for _, w := range e.words {
		out.Words = append(out.Words, jsonWord{w.Name, append([]string{}, w.Also...), w.Form, w.Says, w.Example})
	}
	return out
}

func functionJSON(f *library.Function) jsonFunction {
	gives := []library.Param{{Shape: f.Result}}
	if f.Result.Kind == library.Fields {
		gives = f.Result.Params
	}
	return jsonFunction{f.Name, f.Topic, signature(f), f.Doc.Summary, f.Doc.Text, fieldsJSON(f.Params), fieldsJSON(gives),
		f.Doc.Formula, f.Doc.Validity, f.Doc.Source, f.Doc.Example}
}

func fieldsJSON(fields []library.Param) []jsonField {
	out := []jsonField{}
	for _, p := range fields {
		x := jsonField{Name: p.Name, Kind: kindNames[p.Shape.Kind], Unit: jsonUnitOf(p.Shape), Required: required(p),
			Default: p.Shown, Choose: p.Choose, Range: p.Range.Text, Values: p.Shape.Values, Help: p.Help}
		if len(p.Shape.Params) > 0 {
			x.Fields = fieldsJSON(p.Shape.Params)
		}
		out = append(out, x)
	}
	return out
}

var kindNames = map[library.Kind]string{
	library.Quantity: "quantity", library.Whole: "whole", library.Truth: "truth", library.Text: "text",
	library.Of: "list", library.Fields: "record", library.Table: "table",
}

// jsonUnitOf is a quantity's unit without brackets: 1 for a pure number.
func jsonUnitOf(s library.Shape) string {
	if u := unitOf(s); u != "" {
		return u[1 : len(u)-1]
	}
	return ""
}
