package wire

import (
	"encoding/xml"
	"io"
	"strconv"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// A Junit is a report of tests as the tools of schools and build servers read it.
// There is no standard of the form: elements and attributes are those that all
// readers share, from memory.
type Junit struct {
	XMLName  xml.Name     `xml:"testsuites"`
	Name     string       `xml:"name,attr"`
	Tests    int          `xml:"tests,attr"`
	Failures int          `xml:"failures,attr"`
	Errors   int          `xml:"errors,attr"`
	Suites   []junitSuite `xml:"testsuite"`
}

// A junitSuite is one worksheet.
type junitSuite struct {
	Name     string      `xml:"name,attr"`
	Tests    int         `xml:"tests,attr"`
	Failures int         `xml:"failures,attr"`
	Errors   int         `xml:"errors,attr"`
	Skipped  int         `xml:"skipped,attr"`
	Cases    []junitCase `xml:"testcase"`
}

type junitCase struct {
	Class   string       `xml:"classname,attr"`
	Name    string       `xml:"name,attr"`
	Failure []junitPoint `xml:"failure,omitempty"`
	Error   []junitPoint `xml:"error,omitempty"`
	Skipped *junitPoint  `xml:"skipped,omitempty"`
}

type junitPoint struct {
	Message string `xml:"message,attr"`
	Type    string `xml:"type,attr,omitempty"`
	Text    string `xml:",chardata"`
}

// Add puts a worksheet in: that it can be worked, that it is up to date where
// that was asked, its limits and the rules of the house.
func (j *Junit) Add(o Outcome) {
	s := junitSuite{Name: message.Visible(o.Path)}
	lines := junitCase{Name: "every line can be worked"}
	fresh := junitCase{Name: "the results are up to date"}
	for _, f := range findings(o) {
		point := junitPoint{Message: message.Visible(f.says), Type: f.kind.id, Text: f.place()}
		switch f.kind {
		case unreadable, refused, notWorked:
			lines.Error = append(lines.Error, point)
		case outOfDate:
			fresh.Failure = append(fresh.Failure, point)
		}
	}
	s.add(lines)
	if o.Checked {
		s.add(fresh)
	}
	if o.Result != nil && o.Result.Report != nil {
		s.limits(o.Result.Report, former{o.Places, o.Result.Path})
	}
	s.rules(o)
	j.Name = "inkwing"
	j.Tests, j.Failures, j.Errors = j.Tests+s.Tests, j.Failures+s.Failures, j.Errors+s.Errors
	j.Suites = append(j.Suites, s)
}

func (s *junitSuite) add(c junitCase) {
	c.Class = s.Name
	s.Tests++
	switch {
	case len(c.Error) > 0:
		s.Errors++
	case len(c.Failure) > 0:
		s.Failures++
	case c.Skipped != nil:
		s.Skipped++
	}
	s.Cases = append(s.Cases, c)
}

func (s *junitSuite) limits(r *report.Report, f former) {
	for _, l := range r.Limits {
		c := junitCase{Name: message.Visible("limit " + l.Text)}
		switch {
		case l.State != report.Evaluated:
			c.Skipped = &junitPoint{Message: "not worked"}
		case !l.Holds:
			at := f.finding(s.Name, limitOver, message.Diagnostic{Span: l.Span, Summary: limitSays(l), Hint: l.Advice})
			c.Failure = []junitPoint{{message.Visible(at.says), limitOver.id, at.place()}}
		}
		s.add(c)
	}
}

func (s *junitSuite) rules(o Outcome) {
	for _, rule := range o.Rules {
		c := junitCase{Name: message.Visible("rule " + rule.Text)}
		for _, d := range rule.Broken {
			at := former{o.Places, o.Result.Path}.finding(s.Name, ruleBroken, d)
			c.Failure = append(c.Failure, junitPoint{message.Visible(at.says), ruleBroken.id, at.place()})
		}
		s.add(c)
	}
}

// place is where a finding is, as messages have it.
func (f finding) place() string {
	if f.line == 0 {
		return message.Visible(f.path)
	}
	return message.Visible(f.path) + ":" + strconv.Itoa(f.line) + ":" + strconv.Itoa(f.column)
}

// Write writes the report as XML 1.0.
func (j *Junit) Write(w io.Writer) error {
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	e := xml.NewEncoder(w)
	e.Indent("", "  ")
	if err := e.Encode(j); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n")
	return err
}
