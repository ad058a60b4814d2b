package main

import "inkwing/evaluate/report"

type jsonAgainst struct {
	Schema     int         `json:"schema"`
	Against    string      `json:"against"`
	Worksheets []jsonTrace `json:"worksheets"`
}

type jsonTrace struct {
	jsonWorksheet
	Causes     []jsonCause    `json:"changed_inputs"`
	Comparison jsonComparison `json:"comparison"`
}

type jsonCause struct {
	Name string `json:"name"`
	Old  string `json:"old"` // empty for what is new
	New  string `json:"new"` // empty for what is gone
}

func (c compared) json() jsonTrace {
	out := jsonTrace{jsonWorksheet: c.outcome.json(), Causes: []jsonCause{}, Comparison: comparisonJSON(&report.Comparison{})}
	if c.trace == nil {
		return out
	}
	for _, x := range c.trace.Causes {
		out.Causes = append(out.Causes, jsonCause(x))
	}
	out.Comparison = comparisonJSON(c.trace.Comparison)
	return out
}
