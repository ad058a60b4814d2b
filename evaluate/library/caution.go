package library

import (
	"cmp"
	"slices"

	"inkwing/evaluate/library/model"
)

// A Caution is one that a function of the topic may raise. Its finding names
// its values as {0}, {1}, … and has none; where a caution has several wordings
// or levels, this is the first of them.
type Caution struct {
	Topic string
	model.Caution
}

// Cautions lists every caution that the physics may raise, topic by topic along
// the chain, by ID in each.
func Cautions() []Caution {
	return slices.SortedFunc(slices.Values(cautions), func(a, b Caution) int {
		return cmp.Or(cmp.Compare(slices.Index(topics, a.Topic), slices.Index(topics, b.Topic)), cmp.Compare(a.ID, b.ID))
	})
}

// CautionsOf are those that a function may raise, in the order of [Cautions].
func CautionsOf(function string) []Caution {
	ids := raised(function)
	return slices.DeleteFunc(Cautions(), func(c Caution) bool { return !slices.Contains(ids, c.ID) })
}

// Raisers are the functions that may raise a caution, by name.
func Raisers(id string) []string {
	return slices.DeleteFunc(Names(), func(name string) bool { return !slices.Contains(raised(name), id) })
}
