package rules

import (
	"reflect"
	"slices"
	"strings"

	"github.com/expr-lang/expr/ast"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// A meaning is what a part of a predicate stands for.
type meaning struct {
	sort  sort
	row   bool            // in the unit of the row, whatever it is
	dim   units.Dimension // else; of a row's, what it has been set against
	mark  units.Mark
	bound bool     // a row's that has been set against dim
	point bool     // a place on the temperature scale
	apart bool     // a difference: never a point
	zero  bool     // a bare 0, which has any unit
	unit  bool     // the text of a unit
	words []string // all that it can say
	field string   // that it is
	lit   *literal
}

// sort is what a value is.
type sort uint8

const (
	unknown sort = iota // already told of
	truth
	words
	list
	number
)

func (s sort) String() string {
	return [...]string{"unknown", "a truth (yes or no)", "a text", "a list of texts", "a number"}[s]
}

// An asked field, with the unit in which somebody asked for it.
type asked struct {
	field Field
	unit  units.Unit
}

// A reader finds out what the parts of a predicate mean, from the leaves up, and
// puts numbers in SI and questions about units into it.
type reader struct {
	*folder
	subject  Subject
	meanings map[ast.Node]meaning
	problems []message.Diagnostic
	wants    []units.Kind
	asks     []asked
	whole    meaning // of what was visited last: at the end, of all
}

// Visit is called by expr for every node, children first.
func (r *reader) Visit(node *ast.Node) {
	if r.meanings == nil {
		r.meanings = map[ast.Node]meaning{}
	}
	m := r.meaning(node)
	r.meanings[*node] = m
	r.whole = m
}

// wantsTruth notes that the whole is no condition.
func (r *reader) wantsTruth() {
	if r.whole.sort == truth || r.whole.sort == unknown {
		return
	}
	r.problems = append(r.problems, *r.told(0, len(r.out), "this is "+r.whole.sort.String()+", and no condition", r.sortHint(truth)))
}

func (r *reader) of(n ast.Node) meaning { return r.meanings[n] }

func (r *reader) meaning(node *ast.Node) meaning {
	switch n := (*node).(type) {
	case *ast.IdentifierNode:
		return r.name(n)
	case *ast.IntegerNode, *ast.FloatNode:
		return r.number(node)
	case *ast.BoolNode:
		return meaning{sort: truth}
	case *ast.StringNode, *ast.ConstantNode:
		return meaning{sort: words}
	case *ast.ArrayNode:
		return r.array(n)
	case *ast.UnaryNode:
		return r.unary(n)
	case *ast.BinaryNode:
		return r.binary(node, n)
	case *ast.BuiltinNode:
		return r.call(n, n.Name, n.Arguments)
	case *ast.CallNode:
		return r.stranger(n)
	}
	r.say(*node, "a condition is made of what "+r.subject.article()+" tells, numbers, texts, comparisons, and, or, not", r.subject.tells())
	return meaning{}
}

// say notes what is wrong at a node.
func (r *reader) say(n ast.Node, summary, hint string) {
	at := n.Location()
	r.problems = append(r.problems, *r.told(at.From, at.To, summary, hint))
}

// told is a message about runes of the folded text.
func (r *reader) told(from, to int, summary, hint string) *message.Diagnostic {
	from = min(max(from, 0), len(r.from)-1)
	to = min(max(to, from+1), len(r.from)-1)
	start, end := r.from[from], r.from[max(to, from)]
	if l, ok := r.literals[from]; ok {
		end = start + len([]rune(l.text))
	}
	return &message.Diagnostic{Span: r.span(start, end), Summary: summary, Hint: hint}
}

// saying turns what expr says of a text into our words.
func (r *reader) saying(from, to int, says string) *message.Diagnostic {
	token := ""
	if from < len(r.out) {
		token = string(r.out[from:min(max(to, from+1), len(r.out))])
	}
	switch {
	case strings.Contains(says, "maximum allowed nodes"):
		return r.told(0, len(r.out), "this condition is too long", "make several rules of it")
	case strings.Contains(says, "regexp"):
		return r.told(from, to, "the pattern of `matches` cannot be read", "write `contains`, or a pattern with its brackets closed")
	case strings.Contains(says, "EOF"), strings.Contains(says, "end of expression"), token == "":
		return r.told(len(r.out), len(r.out), "this condition is not finished", r.subject.tells())
	case token == "=":
		return r.told(from, to, "`=` gives a value; `==` asks for one", "write `==`")
	case token == "&":
		return r.told(from, to, "`&` is no word of a condition", "write `and`")
	}
	if known := slices.Index(askable, token); isLetter([]rune(token)[0]) && known < 0 {
		if _, ok := r.subject.field(token); !ok {
			return r.nothing(from, to, token)
		}
	}
	return r.told(from, to, "`"+token+"` is not expected here", "put `and` or `or` between two conditions")
}

// nothing says that a word is nothing that a row tells.
func (r *reader) nothing(from, to int, name string) *message.Diagnostic {
	hint := r.subject.tells()
	if near := message.Nearest(name, r.subject.names()); near != "" {
		hint = "did you mean `" + near + "`? " + hint
	}
	return r.told(from, to, "`"+name+"` is nothing that "+r.subject.article()+" tells", hint)
}

func (r *reader) name(n *ast.IdentifierNode) meaning {
	f, ok := r.subject.field(n.Value)
	if !ok {
		r.problems = append(r.problems, *r.nothing(n.Location().From, n.Location().To, n.Value))
		return meaning{}
	}
	if !slices.ContainsFunc(r.asks, func(a asked) bool { return a.field.Name == f.Name }) {
		r.asks = append(r.asks, asked{field: f})
	}
	m := meaning{field: f.Name, words: f.words}
	switch f.kind {
	case reflect.Bool:
		m.sort = truth
	case reflect.String:
		m.sort, m.unit = words, f.measure == "unit"
	case reflect.Slice:
		m.sort = list
	default:
		m.sort, m.row, m.apart = number, f.measure != "", f.measure == "difference"
	}
	return m
}

// number puts what was written with its unit in SI.
func (r *reader) number(node *ast.Node) meaning {
	l, ok := r.literals[(*node).Location().From]
	if !ok {
		r.say(*node, "this number cannot be read", "write it with digits and a point")
		return meaning{}
	}
	ast.Patch(node, &ast.FloatNode{Value: l.si})
	return meaning{sort: number, dim: l.unit.Kind.Dim, mark: l.unit.Kind.Mark, point: l.unit.Kind.Point, zero: l.si == 0 && l.unit.IsZero(), lit: &l}
}

func (r *reader) array(n *ast.ArrayNode) meaning {
	for _, x := range n.Nodes {
		if m := r.of(x); m.sort != words && m.sort != unknown {
			r.say(x, "a list here is one of texts, and this is "+m.sort.String(), `write ["…", "…"], or compare with < and >`)
			return meaning{}
		}
	}
	return meaning{sort: list}
}

func (r *reader) unary(n *ast.UnaryNode) meaning {
	m := r.of(n.Node)
	wants := number
	if n.Operator == "not" || n.Operator == "!" {
		wants = truth
	}
	if !r.is(n.Node, wants, "`"+n.Operator+"`") {
		return meaning{}
	}
	m.words, m.field, m.lit = nil, "", nil
	return m
}

// is reports whether a node is of a sort, and says so where it is not.
func (r *reader) is(n ast.Node, want sort, by string) bool {
	m := r.of(n)
	if m.sort != want && m.sort != unknown {
		r.say(n, by+" wants "+want.String()+", and this is "+m.sort.String(), r.sortHint(want))
	}
	return m.sort == want
}

func (r *reader) sortHint(want sort) string {
	var names []string
	for _, f := range r.subject.Fields {
		if (want == truth) == (f.kind == reflect.Bool) && (want == words) == (f.kind == reflect.String) && (want == number) == (f.kind == reflect.Float64) {
			names = append(names, f.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "of " + r.subject.article() + ", " + want.String() + " is " + strings.Join(names, ", ")
}

func (r *reader) stranger(n *ast.CallNode) meaning {
	name := ""
	if id, ok := n.Callee.(*ast.IdentifierNode); ok {
		name = id.Value
	}
	at := n.Location()
	hint := "a condition may call " + strings.Join(askable, ", ")
	r.problems = append([]message.Diagnostic{*r.told(at.From, at.To, "`"+name+"` is nothing that a condition can call", hint)}, r.problems...)
	return meaning{}
}

// call finds out what a function gives.
func (r *reader) call(n ast.Node, name string, args []ast.Node) meaning {
	switch name {
	case "len", "lower", "upper", "trim":
		if len(args) != 1 || !r.is(args[0], words, "`"+name+"`") {
			return meaning{}
		}
		if name == "len" {
			return meaning{sort: number}
		}
		return meaning{sort: words}
	case "abs", "min", "max", "round", "floor", "ceil":
		return r.numeric(n, name, args)
	}
	r.say(n, "`"+name+"` is nothing that a condition can call", "a condition may call "+strings.Join(askable, ", "))
	return meaning{}
}

func (r *reader) numeric(n ast.Node, name string, args []ast.Node) meaning {
	var all meaning
	for i, a := range args {
		if !r.is(a, number, "`"+name+"`") {
			return meaning{}
		}
		m := r.of(a)
		if i > 0 {
			var ok bool
			if m, ok = r.alike(n, all, m); !ok {
				return meaning{}
			}
		}
		all = m
	}
	if name != "abs" && name != "min" && name != "max" && (all.row || !all.dim.IsNumber()) {
		r.say(n, "`"+name+"` wants a pure number", "divide by a unit first, such as `value / 1 s`")
		return meaning{}
	}
	all.field, all.lit = "", nil
	return all
}
