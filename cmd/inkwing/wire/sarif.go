package wire

import (
	"net/url"
	"path"
	"slices"
	"strings"
)

// A Sarif is a log of findings in the Static Analysis Results Interchange Format,
// version 2.1.0 (OASIS standard, 27 March 2020).
type Sarif struct {
	Schema  string     `json:"$schema"`
	Version string     `json:"version"`
	Runs    []sarifRun `json:"runs"`
}

type sarifRun struct {
	Tool       sarifTool     `json:"tool"`
	ColumnKind string        `json:"columnKind"`
	Results    []sarifResult `json:"results"`
}

type sarifTool struct {
	Driver sarifDriver `json:"driver"`
}

type sarifDriver struct {
	Name    string      `json:"name"`
	Version string      `json:"version"`
	Rules   []sarifRule `json:"rules"`
}

type sarifRule struct {
	ID    string    `json:"id"`
	Short sarifText `json:"shortDescription"`
}

type sarifText struct {
	Text string `json:"text"`
}

type sarifResult struct {
	RuleID    string          `json:"ruleId"`
	RuleIndex int             `json:"ruleIndex"`
	Level     string          `json:"level"`
	Message   sarifText       `json:"message"`
	Locations []sarifLocation `json:"locations"`
}

type sarifLocation struct {
	Physical sarifPlace `json:"physicalLocation"`
}

type sarifPlace struct {
	Artifact sarifArtifact `json:"artifactLocation"`
	Region   *sarifRegion  `json:"region,omitempty"` // none where the whole file is meant
}

type sarifArtifact struct {
	URI string `json:"uri"`
}

// A sarifRegion is on one line; its end is the column behind it (3.30.8).
type sarifRegion struct {
	StartLine   int `json:"startLine"`
	StartColumn int `json:"startColumn"`
	EndColumn   int `json:"endColumn"`
}

// NewSarif is a log of no findings yet. Columns are counted in characters.
func NewSarif(version string) *Sarif {
	run := sarifRun{ColumnKind: "unicodeCodePoints", Results: []sarifResult{},
		Tool: sarifTool{sarifDriver{Name: "inkwing", Version: version}}}
	for _, k := range findingKinds {
		run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, sarifRule{k.id, sarifText{k.says}})
	}
	return &Sarif{Schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json", Version: "2.1.0", Runs: []sarifRun{run}}
}

// Add puts what an outcome needs attention for into the log.
func (s *Sarif) Add(o Outcome) {
	for _, f := range findings(o) {
		r := sarifResult{RuleID: f.kind.id, RuleIndex: slices.Index(findingKinds, f.kind), Level: f.kind.level, Message: sarifText{f.says}}
		place := sarifPlace{Artifact: sarifArtifact{uri(f.path)}}
		if f.line > 0 {
			place.Region = &sarifRegion{f.line, f.column, max(f.column, f.end)}
		}
		r.Locations = []sarifLocation{{place}}
		s.Runs[0].Results = append(s.Runs[0].Results, r)
	}
}

// uri is a path as a reference (RFC 3986).
func uri(name string) string {
	u := url.URL{Path: name}
	switch {
	case path.IsAbs(name):
		u.Scheme = "file"
	case len(name) > 2 && name[1] == ':' && (name[2] == '\\' || name[2] == '/'): // a drive
		u = url.URL{Scheme: "file", Path: "/" + strings.ReplaceAll(name, `\`, "/")}
	}
	return u.String()
}
