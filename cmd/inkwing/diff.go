package main

import (
	"strings"

	"github.com/rogpeppe/go-internal/diff"
)

// showDiff prints a unified diff. A line end of two bytes stays one, so that
// the diff of a file with such ends can still be applied.
func (t *tool) showDiff(name string, before, after []byte) {
	var out strings.Builder
	text := string(diff.Diff(name, before, name, after))
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "diff ") && out.Len() == 0 {
			continue // its own first line, which no other tool needs
		}
		body := strings.TrimSuffix(line, "\n")
		end := line[len(body):]
		if inner, ok := strings.CutSuffix(body, "\r"); ok {
			body, end = inner, "\r"+end
		}
		out.WriteString(t.diffColour(tabbed(body)) + end)
	}
	t.out.printf("%s", out.String())
}

func (t *tool) diffColour(line string) string {
	switch {
	case strings.HasPrefix(line, "---"), strings.HasPrefix(line, "+++"):
		return t.out.bold(line)
	case strings.HasPrefix(line, "@@"):
		return t.out.dim(line)
	case strings.HasPrefix(line, "+"):
		return t.out.green(line)
	case strings.HasPrefix(line, "-"):
		return t.out.red(line)
	}
	return line
}

// tabbed is visible text with its tabs kept, which no terminal misreads.
func tabbed(text string) string {
	parts := strings.Split(text, "\t")
	for i := range parts {
		parts[i] = visible(parts[i])
	}
	return strings.Join(parts, "\t")
}
