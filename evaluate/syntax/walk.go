package syntax

// Children are the expressions directly inside x, in the order in which they
// are written.
func Children(x Expr) []Expr {
	switch x := x.(type) {
	case *List:
		return x.Items
	case *Field:
		return []Expr{x.X}
	case *Index:
		return []Expr{x.X, x.Key}
	case *Call:
		return arguments(x)
	case *Unary:
		return []Expr{x.X}
	case *Binary:
		return []Expr{x.X, x.Y}
	case *Compare:
		return x.Operands
	case *If:
		return []Expr{x.Cond, x.Then, x.Else}
	case *Paren:
		return []Expr{x.X}
	case *Uncertain:
		return present(x.Value, x.Spread, x.Upper)
	case *Chosen:
		return []Expr{x.X, x.Of}
	case *With:
		return replaced(x)
	}
	return studyChildren(x)
}

func studyChildren(x Expr) []Expr {
	switch x := x.(type) {
	case *Vary:
		list := swept(x.Over...)
		for _, o := range x.Outputs {
			list = append(list, o.Of)
		}
		return list
	case *Adjust:
		return append(swept(x.Over), x.Until)
	case *Tune:
		return append(swept(x.Over...), x.Of)
	}
	return nil
}

func arguments(x *Call) []Expr {
	list := make([]Expr, len(x.Args))
	for i, a := range x.Args {
		list[i] = a.Value
	}
	return list
}

func replaced(x *With) []Expr {
	list := []Expr{x.X}
	for _, r := range x.Replaces {
		list = append(list, r.Of, r.Value)
	}
	return list
}

func swept(over ...Sweep) []Expr {
	var list []Expr
	for _, s := range over {
		list = append(list, present(s.Of, s.In, s.From, s.To, s.By)...)
	}
	return list
}

func present(all ...Expr) []Expr {
	list := make([]Expr, 0, len(all))
	for _, x := range all {
		if x != nil {
			list = append(list, x)
		}
	}
	return list
}
