package wire

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
)

// A Report writes what became of worksheets, each as soon as it is known, so that
// none is kept: {"schema": 1, "worksheets": […]}.
type Report struct {
	w     io.Writer
	begun bool
	err   error
}

// NewReport begins a report.
func NewReport(w io.Writer) *Report { return &Report{w: w} }

// Add writes what became of one worksheet.
func (r *Report) Add(o Outcome) {
	if r.err != nil {
		return
	}
	head := ",\n    "
	if !r.begun {
		head = fmt.Sprintf("{\n  \"schema\": %d,\n  \"worksheets\": [\n    ", Schema)
	}
	r.begun = true
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("    ", "  ")
	if r.err = e.Encode(OfWorksheet(o)); r.err == nil {
		_, r.err = io.WriteString(r.w, head+escapeControls(strings.TrimSuffix(out.String(), "\n")))
	}
}

// End writes the end.
func (r *Report) End() error {
	tail := "\n  ]\n}\n"
	if !r.begun {
		tail = fmt.Sprintf("{\n  \"schema\": %d,\n  \"worksheets\": []\n}\n", Schema)
	}
	if r.err == nil {
		_, r.err = io.WriteString(r.w, tail)
	}
	return r.err
}
