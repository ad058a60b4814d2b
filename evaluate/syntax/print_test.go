package syntax

import "strings"

// printed shows an expression as nested lists, operator first: (+ a (* b "2 V")).
func printed(x Expr) string {
	var b strings.Builder
	printTo(&b, x)
	return b.String()
}

func printTo(b *strings.Builder, x Expr) {
	switch x := x.(type) {
	case nil:
		b.WriteByte('_')
	case *Number:
		b.WriteString(x.Text)
		if x.Unit != nil {
			b.WriteString("{" + x.Unit.Text + "}")
		}
	case *Text:
		b.WriteString(quoteText(x.Value))
	case *Truth:
		b.WriteString(truthWord(x.Value))
	case *Name:
		b.WriteString(x.Name)
	case *Uncertain:
		form(b, x.Op, x.Value, x.Spread)
		if x.Upper != nil {
			trim(b)
			form(b, " to", x.Upper)
			b.WriteByte(')')
		}
	case *Compare:
		printCompare(b, x)
	case *Call:
		printCall(b, x)
	case *With:
		printWith(b, x)
	default:
		printForm(b, x)
	}
}

// printForm prints the nodes that are a head and a list of expressions.
func printForm(b *strings.Builder, x Expr) {
	switch x := x.(type) {
	case *List:
		form(b, "list", x.Items...)
	case *Field:
		form(b, "."+x.Name.Name, x.X)
	case *Index:
		form(b, "at", x.X, x.Key)
	case *Unary:
		form(b, x.Op, x.X)
	case *Binary:
		form(b, x.Op, x.X, x.Y)
	case *If:
		form(b, "if", x.Cond, x.Then, x.Else)
	case *Paren:
		form(b, "()", x.X)
	case *Vary:
		form(b, "vary", append(sweepParts(x.Over), outputParts(x.Outputs)...)...)
	case *Adjust:
		form(b, "adjust", append(sweepParts([]Sweep{x.Over}), x.Until)...)
	case *Tune:
		form(b, map[bool]string{true: "tune-most", false: "tune-least"}[x.Most], append(sweepParts(x.Over), x.Of)...)
	}
}

func form(b *strings.Builder, head string, parts ...Expr) {
	if strings.HasPrefix(head, " ") {
		b.WriteString(head)
	} else {
		b.WriteString("(" + head)
	}
	for _, p := range parts {
		b.WriteByte(' ')
		printTo(b, p)
	}
	if !strings.HasPrefix(head, " ") {
		b.WriteByte(')')
	}
}

// trim takes the last closing bracket back.
func trim(b *strings.Builder) {
	text := b.String()
	b.Reset()
	b.WriteString(strings.TrimSuffix(text, ")"))
}

func printCompare(b *strings.Builder, x *Compare) {
	b.WriteString("(compare ")
	printTo(b, x.Operands[0])
	for i, op := range x.Ops {
		b.WriteString(" " + op + " ")
		printTo(b, x.Operands[i+1])
	}
	b.WriteByte(')')
}

func printCall(b *strings.Builder, x *Call) {
	b.WriteString("(call " + x.Func.Name)
	for _, a := range x.Args {
		b.WriteByte(' ')
		if a.Name.Name != "" {
			b.WriteString(a.Name.Name + ":")
		}
		printTo(b, a.Value)
	}
	b.WriteByte(')')
}

func printWith(b *strings.Builder, x *With) {
	b.WriteString("(with ")
	printTo(b, x.X)
	for _, r := range x.Replaces {
		b.WriteByte(' ')
		form(b, "=", r.Of, r.Value)
	}
	b.WriteByte(')')
}

// A printed sweep is its parts as a list; _ stands for what is not given.
func sweepParts(over []Sweep) []Expr {
	var parts []Expr
	for _, s := range over {
		parts = append(parts, &List{Items: []Expr{s.Of, s.From, s.To, s.By, s.In}})
	}
	return parts
}

func outputParts(outputs []Output) []Expr {
	var parts []Expr
	for _, o := range outputs {
		parts = append(parts, o.Of)
		if o.Unit != nil {
			parts = append(parts, &Name{Ident{Name: "{" + o.Unit.Text + "}"}})
		}
	}
	return parts
}
