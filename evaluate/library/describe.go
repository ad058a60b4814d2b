package library

import "strings"

// Required reports whether a call must give the parameter.
func (p *Param) Required() bool { return p.Default == nil && !p.Optional && p.Choose == "" }

// Synopsis is a function's head as a builder would call it: "pack(cell, series: …)".
func (f *Function) Synopsis() string {
	return f.head(func(p *Param) string {
		if p.Required() {
			return p.Name
		}
		return p.Name + ": …"
	})
}

// Signature is the call with the units of its parameters; those that need not be
// given stand with their names.
func (f *Function) Signature() string {
	return f.head(func(p *Param) string {
		unit := p.Shape.UnitText()
		switch {
		case p.Rest:
			return p.WithUnit() + ", …"
		case !p.Required() && unit != "":
			return p.Name + ": " + unit
		case !p.Required():
			return p.Name
		}
		return p.WithUnit()
	})
}

func (f *Function) head(param func(*Param) string) string {
	parts := make([]string, len(f.Params))
	for i := range f.Params {
		parts[i] = param(&f.Params[i])
	}
	return f.Name + "(" + strings.Join(parts, ", ") + ")"
}

// WithUnit is the parameter's name, and its unit behind it: "from [V]".
func (p *Param) WithUnit() string {
	if u := p.Shape.UnitText(); u != "" {
		return p.Name + " " + u
	}
	return p.Name
}

// UnitText is a quantity's unit in brackets, as the heading of a table has it: [1]
// for a pure number, [any] for any dimension; empty for what is no quantity.
func (s Shape) UnitText() string {
	switch {
	case s.Kind == ListOf && s.Elem != nil:
		return s.Elem.UnitText()
	case s.Kind != Quantity:
		return ""
	case s.Dim != "":
		return "[any]"
	case s.Unit.String() == "":
		return "[1]"
	}
	return "[" + s.Unit.String() + "]"
}
