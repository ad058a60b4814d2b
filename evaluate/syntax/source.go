package syntax

import "strings"

// Source writes an expression in the notation that Parse reads; read again, it
// gives the same tree.
func Source(x Expr) string {
	if name, ok := x.(*Name); ok {
		return name.Name
	}
	var w sourceWriter
	w.expr(x)
	return w.String()
}

// A sourceWriter puts the source of an expression together part by part: a sum of a
// thousand terms is a thousand deep.
type sourceWriter struct{ strings.Builder }

// put writes texts and expressions one after the other.
func (w *sourceWriter) put(parts ...any) {
	for _, p := range parts {
		switch p := p.(type) {
		case string:
			w.WriteString(p)
		case Expr:
			w.expr(p)
		}
	}
}

func (w *sourceWriter) expr(x Expr) {
	switch x := x.(type) {
	case *Number:
		w.put(withUnit(x.Text, x.Unit, " ", ""))
	case *Text:
		w.put(quoteText(x.Value))
	case *Truth:
		w.put(truthWord(x.Value))
	case *Name:
		w.put(x.Name)
	case *List:
		w.list("[", x.Items, "]")
	case *Field:
		w.put(x.X, ".", x.Name.Name)
	case *Index:
		w.put(x.X, "[", x.Key, "]")
	case *Call:
		w.call(x)
	case *Argument:
		w.argument(x)
	case *Paren:
		w.put("(", x.X, ")")
	case *Uncertain:
		w.uncertain(x)
	default:
		w.operator(x)
	}
}

func (w *sourceWriter) operator(x Expr) {
	switch x := x.(type) {
	case *Unary:
		// The blank keeps a minus apart from a number, which would swallow it.
		w.put(x.Op, " ", x.X)
	case *Binary:
		w.put(x.X, " ", x.Op, " ", x.Y)
	case *Compare:
		w.put(x.Operands[0])
		for i, op := range x.Ops {
			w.put(" ", op, " ", x.Operands[i+1])
		}
	case *If:
		w.put("if ", x.Cond, " then ", x.Then, " else ", x.Else)
	case *Chosen:
		w.chosen(x)
	case *With:
		w.put(x.X, " with ")
		for i, r := range x.Replaces {
			w.put(between(i), r.Of, " = ", r.Value)
		}
	default:
		w.study(x)
	}
}

func (w *sourceWriter) chosen(x *Chosen) {
	if x.How == Falling {
		w.put(x.X, " ", string(Rising), " ", x.Of, " ", string(Falling))
		return
	}
	w.put(x.X, " ", string(x.How), " ", x.Of)
}

func (w *sourceWriter) study(x Expr) {
	switch x := x.(type) {
	case *Vary:
		w.put("vary ")
		w.sweeps(x.Over)
		w.put(": ")
		w.outputs(x.Outputs)
	case *Adjust:
		w.put("adjust ")
		w.sweeps([]Sweep{x.Over})
		w.put(" until ", x.Until)
	case *Tune:
		goal := " for least "
		if x.Most {
			goal = " for most "
		}
		w.put("tune ")
		w.sweeps(x.Over)
		w.put(goal, x.Of)
	}
}

// between is what stands before an element of a list, counted from 0.
func between(i int) string {
	if i == 0 {
		return ""
	}
	return ", "
}

func (w *sourceWriter) list(open string, list []Expr, closed string) {
	w.put(open)
	for i, x := range list {
		w.put(between(i), x)
	}
	w.put(closed)
}

func withUnit(text string, u *Unit, before, after string) string {
	if u == nil {
		return text
	}
	return text + before + u.Text + after
}

func (w *sourceWriter) call(x *Call) {
	w.put(x.Func.Name, "(")
	for i, a := range x.Args {
		w.put(between(i))
		if a.Name.Name != "" {
			w.put(a.Name.Name, ": ")
		}
		w.put(a.Value)
	}
	w.put(")")
}

func (w *sourceWriter) uncertain(x *Uncertain) {
	if x.Upper != nil {
		w.put("within ", x.Spread, " to ", x.Upper, x.Coverage.String())
		return
	}
	if n, spread, ok := shared(x); ok {
		w.put("(", n.Text, " ± ", spread.Text, ") ", n.Unit.Text, x.Coverage.String())
		return
	}
	w.put(x.Value, " ", x.Op, " ", x.Spread, x.Coverage.String())
}

// shared reports whether value and spread have their unit from behind a bracket.
func shared(x *Uncertain) (value, spread *Number, ok bool) {
	value, ok = x.Value.(*Number)
	spread, ok2 := x.Spread.(*Number)
	return value, spread, ok && ok2 && value.Unit != nil && value.Unit == spread.Unit
}

func (w *sourceWriter) sweeps(over []Sweep) {
	for i, s := range over {
		w.put(between(i), s.Of, " in ")
		if s.In != nil {
			w.put(s.In)
		} else {
			w.put(s.From, " to ", s.To)
		}
		if s.By != nil {
			w.put(" by ", s.By)
		}
	}
}

func (w *sourceWriter) outputs(outputs []Output) {
	for i, o := range outputs {
		w.put(between(i), withUnit(Source(o.Of), o.Unit, " [", "]"))
	}
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

func (w *sourceWriter) argument(x *Argument) {
	name := x.Name.Name
	if x.Func.Name != "" {
		name = x.Func.Name + "." + name
	}
	w.put(x.Of, "(", name, ")")
}

// Unparen is an expression without the brackets around it.
func Unparen(x Expr) Expr {
	for {
		p, ok := x.(*Paren)
		if !ok {
			return x
		}
		x = p.X
	}
}
