package syntax

// Asked are the quantities that a tree asks for by name: those with a bracket of
// their own, and those in its limits, measurements and budgets. A field stands
// with its record: "store.mass".
func Asked(t *Tree) (names []string) {
	for _, s := range t.Statements {
		switch s := s.(type) {
		case *Definition:
			if s.Unit != nil {
				names = append(names, s.Name.Name)
			}
		case *Limit:
			names = append(names, namedIn(s.Bound)...)
		case *Measured:
			names = append(names, namedIn(s.Of)...)
		case *Budget:
			names = append(names, namedIn(s.Of)...)
		}
	}
	return names
}

// namedIn are the names and fields in an expression.
func namedIn(x Expr) (names []string) {
	if path := Path(x); path != "" {
		return []string{path}
	}
	for _, child := range Children(x) {
		names = append(names, namedIn(child)...)
	}
	return names
}

// Path is a name, or a field of one, as it is written; empty for another
// expression.
func Path(x Expr) string {
	switch x := x.(type) {
	case *Name:
		return x.Name
	case *Field:
		if of := Path(x.X); of != "" {
			return of + "." + x.Name.Name
		}
	}
	return ""
}
