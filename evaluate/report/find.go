package report

import (
	"slices"
	"strings"
)

// Named are the quantities that a name stands for: one, or the fields of a record.
func (r *Report) Named(name string) (list []Quantity) {
	for _, q := range r.Quantities {
		if q.IsOf(name) {
			list = append(list, q)
		}
	}
	return list
}

// IsOf reports whether a quantity is the named one or a field of it.
func (q *Quantity) IsOf(name string) bool {
	return q.Name == name || strings.HasPrefix(q.Name, name+".")
}

// Broken are the limits that do not hold.
func (r *Report) Broken() (list []Limit) {
	for _, l := range r.Limits {
		if isBroken(&l) {
			list = append(list, l)
		}
	}
	return list
}

// A Count is how many a report has of what a builder counts.
type Count struct{ Quantities, Limits, Broken, Cautions, Charts, Errors int }

// Count counts a record as one quantity, a limit that does not hold as a limit and
// not as a caution, and findings of one kind as one caution.
func (r *Report) Count() Count {
	c := Count{Limits: len(r.Limits), Broken: len(r.Broken()), Errors: len(r.Errors)}
	names := map[string]bool{}
	for _, q := range r.Quantities {
		name, _, _ := strings.Cut(q.Name, ".")
		names[name] = true
	}
	c.Quantities = len(names)
	for _, b := range r.Blocks {
		c.Charts += len(b.Charts)
		for _, x := range b.Cautions {
			if x.Kind != OfLimit {
				c.Cautions++
			}
		}
	}
	return c
}

// Chosen are the differences of the quantities named, in that order, the changed
// ones of each first; what did not change has itself on both sides.
func (c *Comparison) Chosen(new *Report, names []string) (list []Difference) {
	for _, name := range names {
		var changed []string
		for _, d := range c.Changed {
			if d.New.IsOf(name) {
				changed = append(changed, d.New.Name)
				list = append(list, d)
			}
		}
		for _, q := range new.Named(name) {
			if !slices.Contains(changed, q.Name) {
				list = append(list, difference(q, q))
			}
		}
	}
	return list
}

// IsChange reports whether the two sides differ.
func (d *Difference) IsChange() bool { return !sameQuantity(d.Old, d.New) }

// Record is the name of the record that a quantity is a field of, else its own.
func (q *Quantity) Record() string {
	record, _, _ := strings.Cut(q.Name, ".")
	return record
}

// Groups are the quantities, the fields of one record together, in their order.
func (r *Report) Groups() (groups [][]Quantity) {
	for _, q := range r.Quantities {
		last := len(groups) - 1
		if last >= 0 && groups[last][0].Record() == q.Record() {
			groups[last] = append(groups[last], q)
			continue
		}
		groups = append(groups, []Quantity{q})
	}
	return groups
}
