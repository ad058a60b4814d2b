package sheet

import "inkwing/evaluate/syntax"

// Asked are the names of the quantities that a builder asks for: in the prose, with
// a bracket, or in a limit, a measurement or a budget.
func (s *Sheet) Asked() map[string]bool {
	asked := map[string]bool{}
	for _, in := range s.Inline {
		asked[in.Name] = true
	}
	tree, _ := syntax.Parse(s.Name, s.Blocks)
	for _, name := range syntax.Asked(tree) {
		asked[name] = true
	}
	return asked
}
