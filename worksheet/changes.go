package worksheet

import (
	"math"
	"slices"
	"strings"

	"inkwing/evaluate/report"
	"inkwing/units"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/region"
)

// A Change is a quantity that the file showed before and shows otherwise now.
type Change struct {
	Name     string
	Old, New string  // as shown
	Share    float64 // of the old value; NaN where that means nothing: from zero, or on a temperature scale
	Limit    bool    // Name is the text of a limit, and the values are what was worked for it
	Asked    bool    // the builder names it: in the prose, with a bracket, in a limit
}

// changes compares what the regions and the prose of a file showed with what they
// show now, limits first. A quantity that was not shown before is no change.
func changes(doc *markdown.Document, say [][]string, r *report.Report) (list []Change) {
	seen, quantities := map[string]bool{}, quantitiesByName(r)
	add := func(name, old, now string, limit bool) {
		if old != now && !seen[name] {
			list = append(list, Change{name, old, now, share(old, now, quantities[name]), limit, r.Asked[name]})
		}
		seen[name] = true
	}
	was := before(doc)
	for i := range doc.Blocks {
		for _, now := range region.Values(say[i], 0) {
			if old, known := was[region.Value{Name: now.Name, Limit: now.Limit}]; known {
				add(now.Name, old, now.Shown, now.Limit)
			}
		}
	}
	for i, now := range r.Inline {
		if v := doc.Inline[i]; !slices.Contains(unworked, v.Shown) {
			add(v.Name, v.Shown, inlineText(now.Shown), false)
		}
	}
	slices.SortStableFunc(list, func(a, b Change) int { return rank(a) - rank(b) })
	return list
}

// rank puts limits first.
func rank(c Change) int {
	if c.Limit {
		return 0
	}
	return 1
}

// unworked are what stands behind an equals sign where nothing was worked yet.
var unworked = []string{"", "?", "…", "...", "—"}

// before is what the regions of the file show, by name: a limit may stand in the
// overview now and in its own block before.
func before(doc *markdown.Document) map[region.Value]string {
	was := map[region.Value]string{}
	for _, r := range doc.Regions {
		if r.Block < 0 {
			continue
		}
		lines := strings.Split(string(doc.Source[r.Inner.Start:r.Inner.End]), "\n")
		for _, v := range region.Values(lines, strings.Count(r.Prefix, ">")) {
			name := region.Value{Name: v.Name, Limit: v.Limit}
			if _, known := was[name]; !known {
				was[name] = v.Shown
			}
		}
	}
	return was
}

// quantitiesByName are the quantities of the report by their names: of several the first.
func quantitiesByName(r *report.Report) map[string]*report.Quantity {
	all := make(map[string]*report.Quantity, len(r.Quantities))
	for i := range slices.Backward(r.Quantities) {
		all[r.Quantities[i].Name] = &r.Quantities[i]
	}
	return all
}

// share is by how much of its old value a quantity changed. What the file showed
// is known as text alone; what it is now is known as a number, save for what
// only the prose names.
func share(old, now string, q *report.Quantity) float64 {
	was, kind, okWas := units.ParseShown(old)
	is, other, okIs := units.ParseShown(now)
	if !okWas || !okIs || kind.Dim != other.Dim || kind.Point || other.Point || was == 0 {
		return math.NaN()
	}
	if q != nil {
		if x, isNumber := q.Value.(float64); isNumber {
			is = x
		}
	}
	return (is - was) / math.Abs(was)
}
