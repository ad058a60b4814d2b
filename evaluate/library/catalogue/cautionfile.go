package main

import (
	"bytes"
	"fmt"
	"go/format"
)

// cautionFile is the Go file that lists the cautions.
func cautionFile(found []caution) ([]byte, error) {
	var out bytes.Buffer
	out.WriteString(heading)
	fmt.Fprintf(&out, "import %q\n\n", libraryPath+"/model")
	out.WriteString("// cautions holds what the physics may raise, sorted by topic and ID.\nvar cautions = []Caution{\n")
	for _, c := range found {
		out.WriteString(c.entry())
	}
	out.WriteString("}\n")
	text, err := format.Source(out.Bytes())
	if err != nil {
		return nil, fmt.Errorf("the written list of cautions is not Go: %w", err)
	}
	return text, nil
}

func (c caution) entry() string {
	var out bytes.Buffer
	fmt.Fprintf(&out, "{Topic: %q, Caution: model.Caution{\nID: %q, Level: model.%s, Standing: %t,\n", c.topic, c.text["ID"], c.level, c.standing)
	for _, field := range texts[1:] {
		fmt.Fprintf(&out, "%s: %s,\n", field, quote(c.text[field]))
	}
	out.WriteString("}},\n")
	return out.String()
}
