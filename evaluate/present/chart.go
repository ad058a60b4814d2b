package present

import (
	"math"
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// charts presents the charts of the sheet, and those that have nothing to show as
// problems.
func charts(w *working.Evaluation) (list []blockChart, problems []message.Diagnostic) {
	slugs, points, rulings := report.Slugs{}, 0, newRulings(w)
	for _, d := range w.Program.Main.Defs {
		body, ok := d.Body.(*program.Chart)
		if !ok {
			continue
		}
		x := d.Stmt.(*syntax.Chart)
		state, waits := w.State(d)
		c := report.Chart{Span: x.Span, State: state, Waits: waits, Title: sheet.OneLine(x.Title.Value)}
		c.Slug = slugs.Next(c.Title)
		if c.State == report.Evaluated {
			p := &plotted{w: w, rulings: rulings, drawing: body, tables: w.Machine.Value(d).(library.List)}
			problem := p.tooMany(&c, &points)
			if problem == nil {
				problem = p.draw(&c)
				points += p.ruled
			}
			if problem != nil {
				problems = append(problems, *problem)
			}
		}
		if c.State != report.Failed {
			list = append(list, blockChart{d.Block, c})
		}
	}
	return list, problems
}

// A blockChart is a chart and the block where it stands.
type blockChart struct {
	block int
	chart report.Chart
}

// maxPoints bounds the points of all charts of a page.
const maxPoints = 1_000_000

// tooMany adds the points that a chart may have to those of the charts above it, and
// refuses it where they are more than is drawn.
func (p *plotted) tooMany(c *report.Chart, points *int) *message.Diagnostic {
	n := 0
	for k := range p.drawing.Tables {
		if rows, ok := p.tables[k].(library.Rows); ok {
			n += rows.Len() * len(p.drawing.Lines)
		}
	}
	if *points += n; *points <= maxPoints {
		return nil
	}
	c.State = report.Failed
	return &message.Diagnostic{
		Span: c.Span, Summary: "with this chart the page has more than 1,000,000 points to draw",
		Hint: "thin the tables out, or draw fewer columns",
	}
}

// draw puts the numbers of a chart in. One without a single point is an error.
func (p *plotted) draw(c *report.Chart) *message.Diagnostic {
	p.read()
	if len(p.series) == 0 {
		c.State = report.Failed
		return &message.Diagnostic{
			Span: c.Span, Summary: "the chart has no point: no row holds " + p.wants(),
			Hint: "fill in the cells, or draw other columns",
		}
	}
	x := units.MustParse("1")
	if !p.drawing.X.Names {
		x = p.unit(&p.drawing.X, p.xs())
	}
	c.X, c.Labels, c.Bars = report.Axis{Name: p.drawing.X.Name, Unit: x.String()}, p.labels, p.drawing.X.Names
	for _, group := range p.panels() {
		c.Panels = append(c.Panels, p.panel(group, x))
	}
	c.Alt = p.alt(c, x)
	return nil
}

// wants says what a row needs to be drawn.
func (p *plotted) wants() string {
	if p.drawing.X.Names {
		return "a name and a number"
	}
	return "a number in both columns"
}

// plotted is a chart's numbers in SI.
type plotted struct {
	w       *working.Evaluation
	rulings *rulings
	ruled   int // limits drawn so far, which count as points
	drawing *program.Chart
	tables  library.List
	series  []siSeries
	labels  []string         // of an axis of names
	placed  map[string][]int // the places of each name there
}

type siSeries struct {
	line, source int
	x, y         []float64
	u            []float64 // expanded uncertainty of each y; nil for none
}

// read takes the columns out of the tables: a row counts where both of its
// numbers are known.
func (p *plotted) read() {
	for i := range p.drawing.Lines {
		for k, s := range p.drawing.Tables {
			rows, ok := p.tables[k].(library.Rows)
			if !ok || s.Columns[i] < 0 {
				continue
			}
			one := siSeries{line: i, source: k}
			at := p.axisOf(rows, s.X)
			for r := range rows.Len() {
				x, okX := at(r)
				y, okY := finite(rows.Cell(r, s.Columns[i]))
				if okX && okY {
					one.x, one.y = append(one.x, x), append(one.y, y)
					one.u = append(one.u, p.w.Cell(s.Node, rows, r, s.Columns[i]))
				}
			}
			if !slices.ContainsFunc(one.u, func(u float64) bool { return u > 0 }) {
				one.u = nil
			}
			if len(one.x) > 0 {
				p.series = append(p.series, one)
			}
		}
	}
}

// axisOf gives the places of a table's rows along the axis: their numbers, or, where
// they have names, the places of those in the order in which they come.
func (p *plotted) axisOf(rows library.Rows, column int) func(row int) (float64, bool) {
	if !p.drawing.X.Names {
		return func(row int) (float64, bool) { return finite(rows.Cell(row, column)) }
	}
	seen := map[string]int{}
	return func(row int) (float64, bool) {
		name, ok := rows.Cell(row, column).(string)
		if !ok {
			return 0, false
		}
		seen[name]++
		return float64(p.place(name, seen[name])), true
	}
}

// place counts a name's places from 1; one that a table has twice has two.
func (p *plotted) place(name string, which int) int {
	if at := p.placed[name]; which <= len(at) {
		return at[which-1]
	}
	if p.placed == nil {
		p.placed = map[string][]int{}
	}
	p.labels = append(p.labels, name)
	p.placed[name] = append(p.placed[name], len(p.labels))
	return len(p.labels)
}

func finite(cell any) (float64, bool) {
	v, ok := cell.(float64)
	return v, ok && !math.IsNaN(v) && !math.IsInf(v, 0)
}

func (p *plotted) xs() (all []float64) {
	for _, s := range p.series {
		all = append(all, s.x...)
	}
	return all
}

// panels groups the lines that have points by what shares a scale, in the order
// of the statement.
func (p *plotted) panels() (groups [][]int) {
	for i := range p.drawing.Lines {
		if !p.has(i) {
			continue
		}
		at := -1
		for g, group := range groups {
			if p.drawing.Lines[group[0]].SharesPanel(&p.drawing.Lines[i]) {
				at = g
			}
		}
		if at < 0 {
			groups = append(groups, []int{i})
		} else {
			groups[at] = append(groups[at], i)
		}
	}
	return groups
}

func (p *plotted) has(line int) bool {
	for _, s := range p.series {
		if s.line == line {
			return true
		}
	}
	return false
}

// unit is what an axis is in: what the builder said, else what fits its largest
// number.
func (p *plotted) unit(l *program.Line, numbers []float64) units.Unit {
	if !l.Unit.IsZero() {
		return l.Unit
	}
	_, high := bounds(numbers)
	low, _ := bounds(numbers)
	return units.Fitting(l.Kind, max(math.Abs(low), math.Abs(high)))
}

// panelUnit is the unit of a panel: that of its first line that has one.
func (p *plotted) panelUnit(group []int) units.Unit {
	var all []float64
	for _, s := range p.series {
		for _, i := range group {
			if s.line == i {
				all = append(all, s.y...)
			}
		}
	}
	for _, i := range group {
		if !p.drawing.Lines[i].Unit.IsZero() {
			return p.drawing.Lines[i].Unit
		}
	}
	return p.unit(&p.drawing.Lines[group[0]], all)
}

func (p *plotted) panel(group []int, x units.Unit) report.Panel {
	y := p.panelUnit(group)
	panel := report.Panel{Unit: y.String()}
	for n, i := range group {
		if n > 0 {
			panel.Name += ", "
		}
		panel.Name += p.drawing.Lines[i].Name
		for _, s := range p.series {
			if s.line == i {
				panel.Series = append(panel.Series, report.Series{
					Name: p.name(s), Points: p.drawing.Tables[s.source].Measured,
					X: inUnit(s.x, x), Y: inUnit(s.y, y), U: inUnit(s.u, y.Difference()),
				})
			}
		}
		panel.Rules = append(panel.Rules, p.rules(i, y)...)
	}
	return panel
}

// name is the column's, with its source where two have it.
func (p *plotted) name(s siSeries) string {
	name := p.drawing.Lines[s.line].Name
	for _, other := range p.series {
		if other.line == s.line && other.source != s.source {
			return name + " of " + p.drawing.Tables[s.source].Name
		}
	}
	return name
}

func inUnit(si []float64, u units.Unit) []float64 {
	if si == nil {
		return nil
	}
	out := make([]float64, len(si))
	for i, v := range si {
		out[i] = u.FromSI(v)
	}
	return out
}

func bounds(numbers []float64) (low, high float64) {
	low, high = numbers[0], numbers[0]
	for _, v := range numbers {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}
