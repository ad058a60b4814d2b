package rules

import (
	"errors"
	"fmt"
	"sync"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/compiler"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/optimizer"
	"github.com/expr-lang/expr/vm"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// The bounds of a predicate.
const (
	MaxLength = 2000 // characters
	MaxNodes  = 200  // of its tree
	maxMemory = 1000 // of the machine that runs it
)

// A predicate is a condition on a row of one subject.
type predicate struct {
	text    text
	program *vm.Program
	wants   []units.Kind // what it compares the row's measures with
	asks    []asked      // the fields that it speaks of, in their order
}

// askable are the functions that a predicate may call.
var askable = []string{"len", "lower", "upper", "trim", "abs", "min", "max", "round", "floor", "ceil"}

// A dialect is what conditions on one subject are compiled with: expr takes most
// of its time to set this up.
type dialect struct {
	sync.Mutex // a configuration caches types
	*conf.Config
}

var dialects = sync.OnceValue(func() map[string]*dialect {
	all := map[string]*dialect{}
	for _, s := range subjects() {
		d := &dialect{Config: conf.CreateNew()}
		list := []expr.Option{expr.Env(s.empty), expr.AsBool(), expr.MaxNodes(MaxNodes), expr.DisableAllBuiltins(),
			expr.Function(fitsName, fits, new(func(any, int) bool))}
		for _, name := range askable {
			list = append(list, expr.EnableBuiltin(name))
		}
		for _, option := range list {
			option(d.Config)
		}
		for name := range d.Disabled {
			delete(d.Builtins, name)
		}
		all[s.Name] = d
	}
	return all
})

// compile does what expr.Compile does, with the configuration that is at hand.
func (d *dialect) compile(text string, reader ast.Visitor) (*vm.Program, error) {
	d.Lock()
	defer d.Unlock()
	d.Visitors = []ast.Visitor{reader}
	tree, err := checker.ParseCheck(text, d.Config)
	if err != nil {
		return nil, err
	}
	if err := optimizer.Optimize(&tree.Node, d.Config); err != nil {
		return nil, err
	}
	return compiler.Compile(tree, d.Config)
}

// fitsName is no word that a builder can type.
const fitsName = "·fits"

// fits asks a row whether its measures are of a kind.
func fits(params ...any) (any, error) { return params[0].(row).base().fits(params[1].(int)), nil }

// compile reads a condition on rows of a subject.
func compile(t text, s Subject) (*predicate, *message.Diagnostic) {
	t = t.trim()
	switch {
	case len(t.runes) == 0:
		return nil, &message.Diagnostic{Span: t.span(0, 0), Summary: "a condition is missing here", Hint: s.tells()}
	case len(t.runes) > MaxLength:
		return nil, &message.Diagnostic{Span: t.span(0, len(t.runes)), Summary: fmt.Sprintf("a condition has at most %d characters", MaxLength), Hint: "make several rules of it"}
	}
	f := fold(t)
	if f.problem != nil {
		return nil, f.problem
	}
	r := &reader{folder: f, subject: s}
	program, err := dialects()[s.Name].compile(string(f.out), r)
	if len(r.problems) == 0 {
		r.wantsTruth()
	}
	switch {
	case len(r.problems) > 0:
		return nil, &r.problems[0]
	case err != nil:
		return nil, r.unreadable(err)
	}
	return &predicate{t, program, r.wants, r.asks}, nil
}

// unreadable says in our words what expr says of a text that it cannot read.
func (r *reader) unreadable(err error) *message.Diagnostic {
	var wrong *file.Error
	if !errors.As(err, &wrong) {
		return &message.Diagnostic{Span: r.span(0, len(r.runes)), Summary: "this condition cannot be read", Hint: r.subject.tells()}
	}
	return r.saying(wrong.From, wrong.To, wrong.Message)
}

// An answer is what a predicate says of a row.
type answer uint8

// The answers. A row of another dimension than the question is not askable.
const (
	no answer = iota
	yes
	unaskable
)

// A machine runs predicates, one after another.
type machine struct{ vm vm.VM }

func newMachine() *machine { return &machine{vm.VM{MemoryBudget: maxMemory}} }

// ask asks a row; a predicate that is not there is true of all.
func (m *machine) ask(p *predicate, r row) answer {
	if p == nil {
		return yes
	}
	base := r.base()
	base.unfit, base.wants = 0, p.wants
	got, err := m.vm.Run(p.program, r)
	switch holds, ok := got.(bool); {
	case base.unfit != 0, err != nil, !ok:
		return unaskable
	case holds:
		return yes
	}
	return no
}
