package sheet

import "inkwing/evaluate/syntax"

// Asked are the names of the quantities that a builder asks for: in the prose, with
// a bracket, or in a limit, a measurement or a budget.
func (s *Sheet) Asked() map[string]bool {
	tree, _ := syntax.Parse(s.Name, s.Blocks)
	return s.AskedBy(tree)
}

// AskedBy is Asked for whoever has read the blocks.
func (s *Sheet) AskedBy(tree *syntax.Tree) map[string]bool {
	asked := map[string]bool{}
	for _, in := range s.Inline {
		asked[in.Name] = true
	}
	if tree == nil {
		return asked
	}
	for _, name := range syntax.Asked(tree) {
		asked[name] = true
	}
	return asked
}
