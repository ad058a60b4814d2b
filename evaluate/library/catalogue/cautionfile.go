package main

import (
	"bytes"
	"fmt"
	"go/format"
)

// cautionFile is the Go file that lists the cautions, and those of each function.
func cautionFile(found []caution, functions []function, from raisers) ([]byte, error) {
	var out bytes.Buffer
	out.WriteString(heading)
	fmt.Fprintf(&out, "import %q\n\n", libraryPath+"/model")
	out.WriteString("// cautions holds what the physics may raise, sorted by topic and ID.\nvar cautions = []Caution{\n")
	for _, c := range found {
		out.WriteString(c.entry())
	}
	out.WriteString("}\n")
	writeRaised(&out, functions, from)
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

// writeRaised writes the function that gives the cautions of a function, by a
// switch, which costs nothing while nobody asks.
func writeRaised(out *bytes.Buffer, functions []function, from raisers) {
	out.WriteString("\n// raised are the IDs of what a function may raise, sorted.\nfunc raised(name string) []string {\nswitch name {\n")
	for _, f := range functions {
		if ids := from.of(f); len(ids) > 0 {
			fmt.Fprintf(out, "case %q:\nreturn %#v\n", f.name, ids)
		}
	}
	out.WriteString("}\nreturn nil\n}\n")
}
