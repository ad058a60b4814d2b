package run

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/units"
)

// call works a library function, or each element's call on a list.
func (m *Machine) call(x *program.Call) (any, *Fault) {
	args, f := m.arguments(x)
	if f != nil {
		return nil, f
	}
	if x.Each {
		return m.callEach(x, args)
	}
	return m.callOne(x, args)
}

func (m *Machine) arguments(x *program.Call) ([]any, *Fault) {
	args := make([]any, len(x.Args))
	for i, a := range x.Args {
		if a == nil {
			args[i] = x.Func.Params[i].Default
			continue
		}
		v, f := m.value(a)
		if f != nil {
			return nil, f
		}
		args[i] = v
	}
	return args, nil
}

func (m *Machine) callEach(x *program.Call, args []any) (any, *Fault) {
	at := 0
	for i, a := range x.Args {
		if a == nil {
			continue
		}
		if _, ok := args[i].(library.List); ok {
			at = i
		}
	}
	list := args[at].(library.List)
	if f := m.spend(len(list), x); f != nil {
		return nil, f
	}
	out := make(library.List, len(list))
	for i, v := range list {
		args[at] = v
		one, f := m.callOne(x, args)
		if f != nil {
			return nil, f
		}
		out[i] = one
	}
	return out, nil
}

func (m *Machine) callOne(x *program.Call, args []any) (any, *Fault) {
	for i := range args {
		if x.Args[i] != nil {
			if f := inRange(&x.Func.Params[i], x.Func.Params[i].Name, args[i], x.Args[i].Place()); f != nil {
				return nil, f
			}
		}
	}
	out, cautions, err := m.safely(x, args)
	if err != nil && m.ctx.Err() != nil {
		return nil, tooLong(x.Place())
	}
	if err != nil {
		return nil, modelFault(x, err)
	}
	if m.quiet == 0 {
		for _, c := range cautions {
			m.raised = append(m.raised, Raised{c, x.Place(), m.now})
		}
	}
	if bad := notFinite(out); bad {
		return nil, Fail(x.Place(), "`"+x.Func.Name+"` comes to no number here", "its inputs are beyond what it can work with")
	}
	return out, nil
}

// safely keeps a bug of the physics from taking the other lines and files down
// with it: it is told at the call, as ours and not the builder's.
func (m *Machine) safely(x *program.Call, args []any) (out any, cautions []model.Caution, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("`%s` failed in inkwing itself (%v): the mistake is ours, please report it with this line", x.Func.Name, r)
		}
	}()
	if m.quiet > 0 {
		return m.memo.call(m.hushed, x.Func, args, m.leaves[x])
	}
	return m.memo.call(m.ctx, x.Func, args, nil)
}

func notFinite(v any) bool {
	switch x := v.(type) {
	case float64:
		return math.IsNaN(x) || math.IsInf(x, 0)
	case library.Record:
		for _, f := range x {
			if notFinite(f) {
				return true
			}
		}
	}
	return false
}

// inRange holds an argument to the range of its parameter.
func inRange(p *library.Param, name string, v any, at message.Span) *Fault {
	switch x := v.(type) {
	case float64:
		if p.Shape.Kind == library.Integer && x != math.Trunc(x) {
			return Fail(at, "`"+name+"` is "+units.Number(x, 6)+", and wants a whole number", about(p))
		}
		if !p.Check(x) {
			return Fail(at, "`"+name+"` is "+units.Show(x, shownUnit(p), 4)+", and "+p.Wants(), about(p))
		}
	case library.List:
		for _, one := range x {
			if f := inRange(p, name, one, at); f != nil {
				return f
			}
		}
	}
	return nil
}

// about is what a parameter is, as a mend.
func about(p *library.Param) string {
	if p.Help == "" {
		return ""
	}
	return "`" + p.Name + "` stands for: " + p.Help
}

func shownUnit(p *library.Param) units.Unit {
	if p.Shape.Unit.IsZero() {
		return units.MustParse("1")
	}
	return p.Shape.Unit
}

// modelFault shows an error of the physics at the argument that it concerns.
func modelFault(x *program.Call, err error) *Fault {
	var e *model.Error
	if !errors.As(err, &e) {
		return Fail(x.Place(), err.Error(), "")
	}
	at, kind := x.Place(), units.Kind{}
	for i := range x.Func.Params {
		if x.Args[i] != nil && concerns(e.Field, x.Func.Params[i].Name) {
			at = x.Args[i].Place()
			kind = kindOf(x.Args[i].Type())
		}
	}
	summary := Fill(e.Summary, e.Values, kind)
	if e.Field != "" {
		summary = "`" + e.Field + "`" + link(summary) + summary
	}
	return Fail(at, summary, Fill(e.Hint, e.Values, kind))
}

// link joins a field's name to what is said of it: "`from` is 5 V rested".
func link(says string) string {
	if strings.HasPrefix(says, "is ") || strings.HasPrefix(says, "has ") {
		return " "
	}
	return ": "
}

// kindOf is what a number or a list's numbers are.
func kindOf(t program.Type) units.Kind {
	if l, ok := t.(program.List); ok {
		t = l.Elem
	}
	q, _ := t.(program.Quantity)
	return q.Kind
}

func concerns(field, param string) bool {
	return field == param || len(field) > len(param) && field[:len(param)] == param && field[len(param)] == '.'
}

// Fill puts a model's values into its sentence, each in its unit; one without is
// shown as one of that kind, in SI.
func Fill(text string, values []model.Value, kind units.Kind) string {
	return model.Fill(text, func(i int) string {
		if i >= len(values) {
			return "?"
		}
		return showValue(values[i], kind)
	})
}

// shownDigits is enough for a sentence.
const shownDigits = 3

func showValue(v model.Value, kind units.Kind) string {
	if v.Unit == "" {
		return units.Show(v.Number, units.Fitting(kind, v.Number), shownDigits)
	}
	u, err := units.Parse(v.Unit)
	if err != nil {
		return units.Number(v.Number, shownDigits) + " " + v.Unit
	}
	return units.Show(u.ToSI(v.Number), u, shownDigits)
}
