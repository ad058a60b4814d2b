package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// schema is the version of the JSON report. It rises when a field changes its
// meaning or goes; fields may be added without.
const schema = 1

type jsonReport struct {
	Schema     int             `json:"schema"`
	Worksheets []jsonWorksheet `json:"worksheets"`
}

type jsonWorksheet struct {
	Path       string         `json:"path"`
	Changed    bool           `json:"changed"`
	Quantities []jsonQuantity `json:"quantities"`
	Limits     []jsonLimit    `json:"limits"`
	Cautions   []jsonCaution  `json:"cautions"`
	Tables     []jsonTable    `json:"tables"`
	Charts     []jsonChart    `json:"charts"`
	Notes      []string       `json:"notes,omitempty"` // of the blocks: which intervals are rough, and why
	Errors     []jsonError    `json:"errors"`
}

type jsonQuantity struct {
	Name string `json:"name"`
	Path string `json:"path,omitempty"` // of the used file that defines it
	Line int    `json:"line"`
	jsonScalar
	U     *float64 `json:"u"`             // standard uncertainty in SI; null where nothing uncertain bears on it
	DOF   *float64 `json:"dof"`           // degrees of freedom; null where infinite
	Low   *float64 `json:"low,omitempty"` // the shortest interval that holds 95 % of the draws
	High  *float64 `json:"high,omitempty"`
	Given bool     `json:"given"`
	Note  string   `json:"note"`
}

type jsonScalar struct {
	SI     *float64 `json:"si"` // null for a truth, a text, a record, and what is not worked
	SIUnit string   `json:"si_unit"`
	Value  any      `json:"value,omitempty"` // of a truth or text
	Shown  string   `json:"shown"`
}

type jsonLimit struct {
	Line     int    `json:"line"`
	Text     string `json:"text"`
	Holds    *bool  `json:"holds"` // null for one that is not worked
	Worked   string `json:"worked"`
	Allowed  string `json:"allowed"`
	Headroom string `json:"headroom"`
	Straddle bool   `json:"straddle,omitempty"` // true or not so within the interval
}

type jsonCaution struct {
	ID     string `json:"id"`
	Kind   string `json:"kind"`
	Level  string `json:"level"`
	Line   int    `json:"line"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

type jsonError struct {
	Path      string `json:"path,omitempty"` // when it is not the worksheet's own
	Line      int    `json:"line"`           // 0 when the file as a whole is concerned
	Column    int    `json:"column"`
	EndColumn int    `json:"end_column"`
	Summary   string `json:"summary"`
	Hint      string `json:"hint"`
}

func (t *tool) printJSON(all []outcome) error {
	report := jsonReport{Schema: schema, Worksheets: make([]jsonWorksheet, 0, len(all))}
	for _, o := range all {
		report.Worksheets = append(report.Worksheets, o.json())
	}
	return t.encode(report)
}

func (t *tool) encode(x any) error {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(x); err != nil {
		return err
	}
	_, err := io.WriteString(t.out, escapeControls(out.String()))
	return err
}

// escapeControls writes what could mislead a terminal in JSON's own escapes: it
// can only stand inside of strings.
func escapeControls(text string) string {
	var out strings.Builder
	for _, r := range text {
		if r >= 0x7f && r <= 0x9f || message.Visible(string(r)) != string(r) && r > 0x9f {
			fmt.Fprintf(&out, "\\u%04x", r)
			continue
		}
		out.WriteRune(r)
	}
	return out.String()
}

// json is the outcome as the contract has it. Every list is there, if empty.
func (o outcome) json() jsonWorksheet {
	w := jsonWorksheet{Path: o.shown, Quantities: []jsonQuantity{}, Limits: []jsonLimit{}, Cautions: []jsonCaution{}, Tables: []jsonTable{}, Charts: []jsonChart{}, Errors: []jsonError{}}
	if o.err != nil {
		w.Errors = append(w.Errors, jsonError{Summary: o.err.Error(), Hint: hintOf(o.err)})
	}
	if o.result == nil {
		return w
	}
	w.Changed = o.result.Changed() && o.err == nil
	p := newPlaces(o)
	w.Charts = append(w.Charts, p.charts(o)...)
	for _, d := range o.result.Refused {
		w.Errors = append(w.Errors, p.json(d))
	}
	if o.result.Report != nil {
		w.add(o.result.Report, p)
	}
	return w
}

func (w *jsonWorksheet) add(r *report.Report, p *places) {
	for _, q := range r.Quantities {
		w.Quantities = append(w.Quantities, p.quantity(q))
	}
	for _, l := range r.Limits {
		x := jsonLimit{Line: p.line(l.Span), Text: l.Text, Worked: l.Worked, Allowed: l.Allowed, Straddle: l.Straddle, Headroom: l.Headroom}
		if l.State == report.Evaluated {
			x.Holds = &l.Holds
		}
		w.Limits = append(w.Limits, x)
	}
	for _, c := range r.Cautions {
		w.Cautions = append(w.Cautions, jsonCaution{c.ID, kindName(c.Kind), levelName(c.Level), p.line(c.Span), c.Text, c.Source})
	}
	for _, b := range r.Blocks {
		for _, t := range b.Tables {
			w.Tables = append(w.Tables, p.table(t))
		}
		w.Notes = append(w.Notes, b.Notes...)
	}
	for _, d := range r.Errors {
		w.Errors = append(w.Errors, p.json(d))
	}
}

func (p *places) quantity(q report.Quantity) jsonQuantity {
	x := jsonQuantity{Name: q.Name, Line: p.line(q.Span), jsonScalar: scalarJSON(q), Given: q.Given, Note: q.Note}
	if q.Path != "" && q.Path != p.g.name {
		x.Path = p.g.display(q.Path)
	}
	x.spread(q.Uncertainty)
	return x
}

func scalarJSON(q report.Quantity) jsonScalar {
	x := jsonScalar{SIUnit: q.SIUnit, Shown: q.Shown}
	switch v := q.Value.(type) {
	case float64:
		x.SI = &v
	case bool, string:
		x.Value = v
	}
	return x
}

func (x *jsonQuantity) spread(s report.Uncertainty) {
	if s.U > 0 && !math.IsInf(s.U, 0) {
		x.U = &s.U
		if !math.IsInf(s.DegreesOfFreedom, 1) {
			x.DOF = &s.DegreesOfFreedom
		}
	}
	if s.Drawn {
		x.Low, x.High = &s.Low, &s.High
	}
}

func (p *places) json(d message.Diagnostic) jsonError {
	line, column, end := p.at(d.Span)
	x := jsonError{Line: line, Column: column, EndColumn: end, Summary: d.Summary, Hint: d.Hint}
	if d.Span.File != "" && d.Span.File != p.g.name {
		x.Path = p.g.display(d.Span.File)
	}
	return x
}

func kindName(k report.Kind) string {
	return map[report.Kind]string{report.OfLimit: "limit", report.OfModel: "model", report.OfStanding: "standing"}[k]
}

func levelName(l model.Level) string {
	return map[model.Level]string{model.Advice: "advice", model.Warning: "warning", model.Danger: "danger"}[l]
}
