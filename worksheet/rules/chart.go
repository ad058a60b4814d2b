package rules

import (
	"path"
	"slices"
	"strings"

	"inkwing/evaluate/report"
	"inkwing/units"
)

// MaxCharted is how many journals a chart shows side by side.
const MaxCharted = 60

// Chart draws what was found over the journals, one panel a dimension and one
// series a name. Its reason says why there is nothing to be drawn.
func (s *Search) Chart(finds []Find) (c report.Chart, reason string) {
	finds = s.sorted(finds)
	f, ok := s.drawn()
	if !ok {
		return c, "no column of this search is a number"
	}
	journals := journalsOf(finds)
	if len(journals) > MaxCharted {
		return c, "more journals were found than a chart can name"
	}
	c = report.Chart{Span: s.At, Title: s.Title, X: report.Axis{Name: "journal"}, Labels: shortened(journals)}
	for _, x := range finds {
		if v, number := f.of(x.row).(float64); number && v == v && (f.measure == "" || x.base().kind != nil) {
			s.draw(&c, f, x, v, float64(slices.Index(journals, x.base().Journal)+1))
		}
	}
	if len(c.Panels) == 0 {
		return c, "no number was found that could be drawn"
	}
	c.Alt = s.alt(c, journals)
	return c, ""
}

// drawn is the first column that is a number of its journal.
func (s *Search) drawn() (Field, bool) {
	for _, f := range s.columns {
		if f.kind.String() == "float64" && f.Name != "line" {
			return f, true
		}
	}
	return Field{}, false
}

// draw puts a number on its panel.
func (s *Search) draw(c *report.Chart, f Field, x Find, v, at float64) {
	u := units.MustParse("1")
	switch {
	case f.Name == "headroom":
		u = units.MustParse("%")
	case f.measure != "":
		u = unitFor(x, s.units)
	}
	if f.measure == "difference" {
		u = u.Difference()
	}
	p := panelOf(c, u, f.Name)
	u, _ = units.Parse(p.Unit)
	one := seriesOf(p, nameOf(x, f))
	one.X, one.Y = append(one.X, at), append(one.Y, u.FromSI(v))
	one.U = append(one.U, 0)
	if q, ok := x.row.(*quantityRow); ok && f.Name == "value" {
		one.U[len(one.U)-1] = u.Difference().FromSI(q.Uncertainty)
	}
}

// panelOf is the panel of a dimension.
func panelOf(c *report.Chart, u units.Unit, name string) *report.Panel {
	for i := range c.Panels {
		own, _ := units.Parse(c.Panels[i].Unit)
		if alikeKinds(own.Kind, u.Kind) && own.Kind.Point == u.Kind.Point {
			return &c.Panels[i]
		}
	}
	c.Panels = append(c.Panels, report.Panel{Name: name, Unit: u.String()})
	return &c.Panels[len(c.Panels)-1]
}

func seriesOf(p *report.Panel, name string) *report.Series {
	for i := range p.Series {
		if p.Series[i].Name == name {
			return &p.Series[i]
		}
	}
	p.Series = append(p.Series, report.Series{Name: name, Points: true})
	return &p.Series[len(p.Series)-1]
}

// nameOf is what a row is called in the legend.
func nameOf(x Find, f Field) string {
	switch r := x.row.(type) {
	case *quantityRow:
		return r.Name
	case *limitRow:
		return r.Text
	}
	return f.Name
}

// journalsOf are the journals of finds, each once.
func journalsOf(finds []Find) (list []string) {
	for _, x := range finds {
		if name := x.base().Journal; !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}

// shortened are paths without what they all begin and end with, so that a label
// says what tells a journal from the others.
func shortened(paths []string) []string {
	parts := make([][]string, len(paths))
	for i, p := range paths {
		parts[i] = strings.Split(strings.TrimSuffix(p, path.Ext(p)), "/")
	}
	for allShare(parts, func(p []string) string { return p[0] }) {
		for i := range parts {
			parts[i] = parts[i][1:]
		}
	}
	for allShare(parts, func(p []string) string { return p[len(p)-1] }) {
		for i := range parts {
			parts[i] = parts[i][:len(parts[i])-1]
		}
	}
	out := make([]string, len(paths))
	for i, p := range parts {
		out[i] = strings.Join(p, "/")
	}
	return out
}

// allShare reports whether all paths, of two parts at least, share one.
func allShare(parts [][]string, part func([]string) string) bool {
	if len(parts) < 2 {
		return len(parts) == 1 && len(parts[0]) > 1
	}
	for _, p := range parts {
		if len(p) < 2 || part(p) != part(parts[0]) {
			return false
		}
	}
	return true
}

// altDigits are enough for a text in place of a picture.
const altDigits = 3

// alt says in words what a chart shows.
func (s *Search) alt(c report.Chart, journals []string) string {
	var says []string
	for _, p := range c.Panels {
		for _, one := range p.Series {
			u, _ := units.Parse(p.Unit)
			low, high := slices.Min(one.Y), slices.Max(one.Y)
			reach := " from " + units.Show(u.ToSI(low), u, altDigits) + " to " + units.Show(u.ToSI(high), u, altDigits)
			if low == high {
				reach = " " + units.Show(u.ToSI(low), u, altDigits)
			}
			says = append(says, one.Name+reach)
		}
	}
	return c.Title + ": " + strings.Join(says, "; ") + "; in " + units.Number(float64(len(journals)), 12) + " journals."
}
