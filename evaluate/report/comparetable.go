package report

import "slices"

// What is said of how a reading agrees with what is evaluated.
const (
	Agree    = "agree"
	Doubtful = "doubtful"
	Disagree = "disagree"
)

// A VerdictChange is a reading whose agreement with what is evaluated is another
// one; Old is empty for a new reading that does not agree.
type VerdictChange struct{ Name, Old, New string }

// A TableChange is a table of vary or budget of which rows differ.
type TableChange struct {
	Verb, Name string
	Rows, Of   int // rows that differ, and those of the longer one
}

// tables compares what stands in tables: verdicts of readings, and the rows of
// what has a name.
func (c *Comparison) tables(old, new *Report) {
	c.verdicts(readings(old), readings(new))
	before := ofName(old)
	for _, t := range ofName(new) {
		same := func(a *Table) bool { return a.Verb == t.Verb && a.Name == t.Name }
		i := slices.IndexFunc(before, same)
		if i < 0 {
			continue
		}
		if n := rowsDiffer(before[i], t); n > 0 {
			c.Tables = append(c.Tables, TableChange{t.Verb, t.Name, n, max(len(before[i].Rows), len(t.Rows))})
		}
		before = slices.Delete(before, i, i+1)
	}
}

// verdicts pairs readings by their name, one that stands twice in its order.
func (c *Comparison) verdicts(before, now []VerdictChange) {
	for _, x := range now {
		i := slices.IndexFunc(before, func(a VerdictChange) bool { return a.Name == x.Name })
		if i >= 0 {
			x.Old = before[i].New
			before = slices.Delete(before, i, i+1)
		}
		if isNew := i < 0; isNew && (x.New == Doubtful || x.New == Disagree) || !isNew && x.Old != x.New {
			c.Verdicts = append(c.Verdicts, x)
		}
	}
}

// readings are a report's rows of measured, with their verdicts as New.
func readings(r *Report) []VerdictChange {
	var all []VerdictChange
	for _, b := range r.Blocks {
		for _, t := range b.Tables {
			if t.Verb != "measured" {
				continue
			}
			for _, row := range t.Rows {
				all = append(all, VerdictChange{Name: row[0], New: row[len(row)-1]})
			}
		}
	}
	return all
}

// ofName are a report's tables of vary and budget that go under a name.
func ofName(r *Report) []*Table {
	var all []*Table
	for _, b := range r.Blocks {
		for i := range b.Tables {
			if t := &b.Tables[i]; t.Name != "" && (t.Verb == "vary" || t.Verb == "budget") {
				all = append(all, t)
			}
		}
	}
	return all
}

// rowsDiffer counts the rows that are otherwise, place by place: by value and
// not by text, so that another unit is no change.
func rowsDiffer(a, b *Table) int {
	n := max(len(a.Rows), len(b.Rows)) - min(len(a.Rows), len(b.Rows))
	for i := range min(len(a.Values), len(b.Values)) {
		if !slices.EqualFunc(a.Values[i], b.Values[i], SameValue) {
			n++
		}
	}
	return n
}
