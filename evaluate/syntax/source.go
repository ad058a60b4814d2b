package syntax

import "strings"

// Source writes an expression in the notation that Parse reads; read again, it
// gives the same tree.
func Source(x Expr) string {
	switch x := x.(type) {
	case *Number:
		return withUnit(x.Text, x.Unit, " ", "")
	case *Text:
		return quoteText(x.Value)
	case *Truth:
		return truthWord(x.Value)
	case *Name:
		return x.Name
	case *List:
		return "[" + sources(x.Items) + "]"
	case *Field:
		return Source(x.X) + "." + x.Name.Name
	case *Index:
		return Source(x.X) + "[" + Source(x.Key) + "]"
	case *Call:
		return sourceCall(x)
	case *Argument:
		return sourceArgument(x)
	case *Paren:
		return "(" + Source(x.X) + ")"
	case *Uncertain:
		return sourceUncertain(x)
	}
	return sourceOperator(x)
}

func sourceOperator(x Expr) string {
	switch x := x.(type) {
	case *Unary:
		// The blank keeps a minus apart from a number, which would swallow it.
		return x.Op + " " + Source(x.X)
	case *Binary:
		return Source(x.X) + " " + x.Op + " " + Source(x.Y)
	case *Compare:
		text := Source(x.Operands[0])
		for i, op := range x.Ops {
			text += " " + op + " " + Source(x.Operands[i+1])
		}
		return text
	case *If:
		return "if " + Source(x.Cond) + " then " + Source(x.Then) + " else " + Source(x.Else)
	case *Chosen:
		return sourceChosen(x)
	case *With:
		var parts []string
		for _, r := range x.Replaces {
			parts = append(parts, Source(r.Of)+" = "+Source(r.Value))
		}
		return Source(x.X) + " with " + strings.Join(parts, ", ")
	}
	return sourceStudy(x)
}

func sourceChosen(x *Chosen) string {
	if x.How == Falling {
		return Source(x.X) + " " + string(Rising) + " " + Source(x.Of) + " " + string(Falling)
	}
	return Source(x.X) + " " + string(x.How) + " " + Source(x.Of)
}

func sourceStudy(x Expr) string {
	switch x := x.(type) {
	case *Vary:
		return "vary " + sourceSweeps(x.Over) + ": " + sourceOutputs(x.Outputs)
	case *Adjust:
		return "adjust " + sourceSweeps([]Sweep{x.Over}) + " until " + Source(x.Until)
	case *Tune:
		goal := " for least "
		if x.Most {
			goal = " for most "
		}
		return "tune " + sourceSweeps(x.Over) + goal + Source(x.Of)
	}
	return ""
}

func sources(list []Expr) string {
	var parts []string
	for _, x := range list {
		parts = append(parts, Source(x))
	}
	return strings.Join(parts, ", ")
}

func withUnit(text string, u *Unit, before, after string) string {
	if u == nil {
		return text
	}
	return text + before + u.Text + after
}

func sourceCall(x *Call) string {
	var parts []string
	for _, a := range x.Args {
		text := Source(a.Value)
		if a.Name.Name != "" {
			text = a.Name.Name + ": " + text
		}
		parts = append(parts, text)
	}
	return x.Func.Name + "(" + strings.Join(parts, ", ") + ")"
}

func sourceUncertain(x *Uncertain) string {
	if x.Upper != nil {
		return "within " + Source(x.Spread) + " to " + Source(x.Upper) + x.Coverage.String()
	}
	if n, spread, ok := shared(x); ok {
		return "(" + n.Text + " ± " + spread.Text + ") " + n.Unit.Text + x.Coverage.String()
	}
	return Source(x.Value) + " " + x.Op + " " + Source(x.Spread) + x.Coverage.String()
}

// shared reports whether value and spread have their unit from behind a bracket.
func shared(x *Uncertain) (value, spread *Number, ok bool) {
	value, ok = x.Value.(*Number)
	spread, ok2 := x.Spread.(*Number)
	return value, spread, ok && ok2 && value.Unit != nil && value.Unit == spread.Unit
}

func sourceSweeps(over []Sweep) string {
	var parts []string
	for _, s := range over {
		text := Source(s.Of) + " in "
		if s.In != nil {
			text += Source(s.In)
		} else {
			text += Source(s.From) + " to " + Source(s.To)
		}
		if s.By != nil {
			text += " by " + Source(s.By)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

func sourceOutputs(outputs []Output) string {
	var parts []string
	for _, o := range outputs {
		parts = append(parts, withUnit(Source(o.Of), o.Unit, " [", "]"))
	}
	return strings.Join(parts, ", ")
}

func truthWord(v bool) string {
	if v {
		return "true"
	}
	return "false"
}

func quoteText(s string) string { return `"` + escape.Replace(s) + `"` }

// escape does what unescape undoes.
var escape = strings.NewReplacer(`\`, `\\`, `"`, `\"`)

func sourceArgument(x *Argument) string {
	name := x.Name.Name
	if x.Func.Name != "" {
		name = x.Func.Name + "." + name
	}
	return Source(x.Of) + "(" + name + ")"
}
