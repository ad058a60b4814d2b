package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"inkwing/cmd/inkwing/wire"
)

// The forms in which run and check say what they found.
const (
	asText   = "text"
	asJSON   = "json"
	asGithub = "github"
	asSarif  = "sarif"
	asJunit  = "junit"
)

var formats = []string{asText, asJSON, asGithub, asSarif, asJunit}

// A printer takes outcomes one at a time and keeps of them what it has to print at
// the end, so that a folder of any size can be worked.
type printer struct {
	take func(outcome)
	end  func() error
}

// printer is how the outcomes of a verb are printed.
func (t *tool) printer(p *paths, v verb) printer {
	nothing := func() error { return nil }
	switch p.format {
	case asJSON:
		report := wire.NewReport(t.out)
		return printer{func(o outcome) { report.Add(o.form()) }, report.End}
	case asGithub:
		return printer{func(o outcome) { wire.Github(t.out, o.form()) }, nothing}
	case asSarif:
		log := wire.NewSarif(version())
		return printer{func(o outcome) { log.Add(o.form()) }, func() error { return wire.Encode(t.out, log) }}
	case asJunit:
		var report wire.Junit
		return printer{func(o outcome) { report.Add(o.form()) }, func() error { return report.Write(t.out) }}
	}
	return printer{func(o outcome) { v.show(p, o) }, nothing}
}

// fitsFormat refuses a form that there is not, and two at a time.
func (p *paths) fitsFormat() error {
	if p.json {
		if p.format != "" && p.format != asText && p.format != asJSON {
			return trouble{errors.New("--json and --format do not go together"), "leave one of them out"}
		}
		p.format = asJSON
	}
	switch {
	case p.format == "":
		p.format = asText
	case !slices.Contains(formats, p.format):
		return trouble{fmt.Errorf("%s is no form of output", p.format), "--format is one of " + strings.Join(formats, ", ")}
	}
	if p.diff && p.format != asText {
		return trouble{fmt.Errorf("--%s and --diff do not go together", map[bool]string{true: "json", false: "format"}[p.json]), "run once with each"}
	}
	return nil
}
