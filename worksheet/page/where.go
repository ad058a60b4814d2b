package page

import (
	"html"
	"strings"

	"inkwing/evaluate/report"
	"inkwing/worksheet/formula"
)

// where is where a quantity comes from, down to what is given, behind a
// disclosure. What is told once in a tree is not told again.
func (l *lineWriter) where() string {
	if l.Short || l.Step == nil || len(l.Step.Dependencies) == 0 {
		return ""
	}
	t := &tree{maker: l.maker, told: map[*report.Step]bool{l.Step: true}}
	t.list(l.Step, 0)
	return `<details class="where"><summary>where from</summary>` + t.out.String() + "</details>"
}

// deepest bounds how far a tree is told: beyond, each step has its own place.
const deepest = 12

// A tree is written without the closing tags of its points, which HTML does not need:
// there are hundreds of them.
type tree struct {
	*maker
	out  strings.Builder
	told map[*report.Step]bool
}

func (t *tree) list(s *report.Step, depth int) {
	var fresh []*report.Step
	for _, from := range s.Dependencies {
		if !t.told[from] {
			t.told[from] = true
			fresh = append(fresh, from)
		}
	}
	if len(fresh) == 0 {
		return
	}
	t.out.WriteString("<ul>")
	for _, from := range fresh {
		t.out.WriteString("<li>" + t.name(from) + t.value(from))
		if depth < deepest {
			t.list(from, depth+1)
		}
	}
	t.out.WriteString("</ul>")
}

// name leads to the place of a quantity of this page.
func (t *tree) name(s *report.Step) string {
	name := html.EscapeString(s.Name)
	root, _, _ := strings.Cut(s.Name, ".")
	if t.anchors[root] {
		return `<a href="` + t.ref(root) + `">` + name + "</a>"
	}
	return name
}

func (t *tree) value(s *report.Step) string {
	switch {
	case s.Where != "" && strings.Contains(s.Shown, ","): // a row: its cells are named where they are used
		return ", " + ticks(s.Where)
	case s.Where != "":
		return " = " + formula.Text(s.Shown) + ", " + ticks(s.Where)
	case strings.Contains(s.Shown, ", "): // a record: its fields are on its card
		return ""
	}
	return " = " + formula.Text(s.Shown)
}
