package page

import (
	"html"
	"strings"

	"inkwing/evaluate/report"
)

// where is where a quantity comes from, down to what is given, behind a
// disclosure. What is told once in a tree is not told again.
func (l *lineWriter) where() {
	if l.Short || l.Step == nil || len(l.Step.Dependencies) == 0 {
		return
	}
	l.out.put(`<details class="where"><summary>where from</summary>`)
	l.from.tree(l.Step)
	l.out.put("</details>")
}

// deepest bounds how far a tree is told: beyond, each step has its own place.
const deepest = 12

// origins write trees of where quantities come from. They do without the closing tags of
// points, which HTML does not need: there are hundreds of them. Many quantities come from
// the same, whose point is made once.
type origins struct {
	*maker
	told   map[*report.Step]int // the last tree in which a step was told
	trees  int
	fresh  []*report.Step // those of the lists that are being written
	points map[*report.Step]string
}

func (o *origins) tree(s *report.Step) {
	o.trees++
	o.told[s] = o.trees
	o.list(s, 0)
}

func (o *origins) list(s *report.Step, depth int) {
	from := len(o.fresh)
	for _, d := range s.Dependencies {
		if o.told[d] != o.trees {
			o.told[d] = o.trees
			o.fresh = append(o.fresh, d)
		}
	}
	if to := len(o.fresh); to > from {
		o.out.put("<ul>")
		for i := from; i < to; i++ {
			o.point(o.fresh[i])
			if depth < deepest {
				o.list(o.fresh[i], depth+1)
			}
		}
		o.out.put("</ul>")
	}
	o.fresh = o.fresh[:from]
}

// point is a quantity with what it came to.
func (o *origins) point(s *report.Step) {
	text, ok := o.points[s]
	if !ok {
		from := o.out.Len()
		o.out.put("<li>")
		o.name(s)
		o.value(s)
		o.points[s] = string(o.out.Bytes()[from:])
		return
	}
	o.out.put(text)
}

// name leads to the place of a quantity of this page.
func (o *origins) name(s *report.Step) {
	name := html.EscapeString(s.Name)
	root, _, _ := strings.Cut(s.Name, ".")
	if !o.anchors[root] {
		o.out.put(name)
		return
	}
	o.to(root)
	o.out.put(name, "</a>")
}

func (o *origins) value(s *report.Step) {
	switch {
	case s.Where != "" && strings.Contains(s.Shown, ","): // a row: its cells are named where they are used
		o.out.put(", ")
		o.out.ticks(s.Where)
	case s.Where != "":
		o.out.put(" = ")
		o.out.text(s.Shown)
		o.out.put(", ")
		o.out.ticks(s.Where)
	case strings.Contains(s.Shown, ", "): // a record: its fields are on its card
	default:
		o.out.put(" = ")
		o.out.text(s.Shown)
	}
}
