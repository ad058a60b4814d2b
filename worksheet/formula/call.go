package formula

import (
	"strings"

	"inkwing/evaluate/syntax"
)

// field is a field by its symbol, or by its name, with whose it is below: C with
// "store" for store.capacitance.
func (n Notation) field(x *syntax.Field) item {
	symbol := ""
	if n.Symbol != nil {
		symbol = n.Symbol(x.Span)
	}
	owner := n.owner(x.X)
	if symbol == Sheet {
		return symbolItem(taken(x.Name.Name))
	}
	base, marks := taken(x.Name.Name)
	if symbol != "" {
		base, marks = taken(symbol)
	}
	return symbolItem(base, joined(marks, owner))
}

// Sheet is the symbol of what is no field but a quantity of a used worksheet.
const Sheet = "·"

// owner names in words what a field belongs to.
func (n Notation) owner(x syntax.Expr) string {
	switch x := x.(type) {
	case *syntax.Name:
		return strings.ReplaceAll(x.Name, "_", " ")
	case *syntax.Field:
		return strings.ReplaceAll(x.Name.Name, "_", " ")
	case *syntax.Index:
		return key(x.Key)
	case *syntax.Call:
		return strings.ReplaceAll(x.Func.Name, "_", " ")
	case *syntax.Paren:
		return n.owner(x.X)
	}
	return ""
}

// key is a row's key as it stands in the table, or an element's number.
func key(x syntax.Expr) string {
	if text, ok := x.(*syntax.Text); ok {
		return text.Value
	}
	return syntax.Source(x)
}

// index is an element or row: its number or key below the name.
func (n Notation) index(x *syntax.Index, at place) item {
	if name, ok := x.X.(*syntax.Name); ok {
		base, marks := taken(name.Name)
		return symbolItem(base, joined(marks, key(x.Key)))
	}
	at.deep++
	of := n.set(x.X, at).tight(atom)
	return item{ml: lowered(row(of.ml), words(key(x.Key))), bind: atom}
}

// call is a function. Those that have a sign of their own are set with it.
func (n Notation) call(x *syntax.Call, at place) item {
	if n.Folded != nil && n.Folded(x.Func.Name) {
		return item{ml: call(function(x.Func.Name), n.folded(x), false), bind: atom}
	}
	if len(x.Args) == 1 && x.Args[0].Name.Name == "" {
		if it, ok := n.signed(x, at); ok {
			return it
		}
	}
	inside, tall := n.arguments(x.Args)
	return item{ml: call(function(x.Func.Name), inside, tall), bind: atom, tall: tall}
}

func (n Notation) arguments(args []syntax.Arg) (ml string, tall bool) {
	parts := make([]string, len(args))
	for i, a := range args {
		it := n.set(a.Value, place{small: true})
		if a.Name.Name != "" {
			parts[i] = words(strings.ReplaceAll(a.Name.Name, "_", " ")) + thin
		}
		parts[i] += n.reached(a.Value, it.ml)
		tall = tall || it.tall
	}
	return strings.Join(parts, operator(",")+thin), tall
}

// signed is a function of one argument that print has a sign for.
func (n Notation) signed(x *syntax.Call, at place) (item, bool) {
	if x.Func.Name == "exp" {
		return item{ml: raised(upright("e"), n.bare(x.Args[0].Value, place{high: true}).ml), bind: power}, true
	}
	arg := n.bare(x.Args[0].Value, at.inside())
	arg.ml = n.reached(x.Args[0].Value, arg.ml)
	it := item{bind: atom, tall: arg.tall}
	switch x.Func.Name {
	case "sqrt":
		it.ml, it.tall = root(arg.ml), true
	case "abs":
		it.ml = bracketed("|", arg.ml, "|", arg.tall)
	case "floor":
		it.ml = bracketed("⌊", arg.ml, "⌋", arg.tall)
	case "ceil":
		it.ml = bracketed("⌈", arg.ml, "⌉", arg.tall)
	case "sin", "cos", "tan", "ln":
		if arg.bind != atom {
			return item{}, false
		}
		it.ml, it.bind = row(function(x.Func.Name)+thin+arg.ml), times
	default:
		return item{}, false
	}
	return it, true
}

// function is a function's name, upright; one of a single letter too.
func function(name string) string {
	switch name {
	case "asin", "acos", "atan":
		return words("arc" + name[1:])
	case "log10":
		return lowered(words("log"), number("10"))
	}
	if letter, mark := symbol(name); letter != "" {
		return marked(letter, mark)
	}
	if head, rest, ok := strings.Cut(name, "_"); ok && len(head) == 1 {
		return marked(head, strings.ReplaceAll(rest, "_", " "))
	}
	return words(strings.ReplaceAll(name, "_", "\u00a0"))
}

// Called is a function with its parameters, as its definition begins.
func Called(name string, params []string) string {
	return call(function(name), strings.Join(params, operator(",")+thin), false)
}
