package page

import (
	"slices"
	"strings"

	"inkwing/evaluate/explain"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/formula"
)

// callsInRow are the calls that a list consists of, if they all are of one model: what
// was given to each is a row of a table. Nil for anything else.
func (l *lineWriter) callsInRow(x syntax.Expr) (calls []*explain.LineCall) {
	list, ok := x.(*syntax.List)
	if !ok {
		return nil
	}
	for _, v := range list.Items {
		call, field := l.wholeCall(v)
		if call == nil || field != "" || len(calls) > 0 && call.Name != calls[0].Name {
			return nil
		}
		calls = append(calls, call)
	}
	return calls
}

// rows is a list of calls of one model as a card with a table, an argument a column.
func (l *lineWriter) rows(d *syntax.Definition, calls []*explain.LineCall) {
	name := d.Name.Name
	l.out.put(`<div class="line card" id="`, l.anchor(name), `"><p class="head"><span class="name">`, formula.Math(formula.Name(name)),
		`</span><span class="does">each `, says(calls[0].Name, calls[0].Doc.Summary), "</span></p>", note(d.Note))
	l.callTable(name, calls)
	l.waits()
	l.out.put(`<div class="more-of">`)
	l.modelOf(calls[0])
	l.where()
	l.out.put("</div></div>")
}

// callTable has a row for each call.
func (l *lineWriter) callTable(name string, calls []*explain.LineCall) {
	l.out.put(`<div class="scroll" tabindex="0" role="group" aria-label="`, words(name), `"><table><thead><tr>`)
	columns := argumentsOf(calls)
	aligned := make([]string, len(columns)) // found once: there may be thousands of calls
	for i, name := range columns {
		aligned[i] = class("r", isMeasured(calls, name))
		l.out.put("<th", aligned[i], ` scope="col">`, words(name), "</th>")
	}
	l.out.put("</tr></thead><tbody>")
	for _, c := range calls {
		l.out.put("<tr>")
		for i, name := range columns {
			l.cell(c, name, aligned[i])
		}
		l.out.put("</tr>")
	}
	l.out.put("</tbody></table></div>")
}

// cell is one argument, which can be changed where it stands.
func (l *lineWriter) cell(c *explain.LineCall, name, class string) {
	l.out.put("<td", class)
	i := slices.IndexFunc(c.Arguments, func(a explain.LineArgument) bool { return a.Name == name })
	if i < 0 {
		l.out.put("></td>")
		return
	}
	a := c.Arguments[i]
	l.reach(a.At)
	l.out.put(">")
	l.argument(a)
	l.out.put("</td>")
}

// argumentsOf are the arguments that any of the calls was given, in their order.
func argumentsOf(calls []*explain.LineCall) (names []string) {
	for _, c := range calls {
		for _, a := range c.Arguments {
			if !slices.Contains(names, a.Name) {
				names = append(names, a.Name)
			}
		}
	}
	return names
}

// isMeasured reports whether an argument is a number with a unit or without, wherever
// it was given.
func isMeasured(calls []*explain.LineCall, name string) bool {
	for _, c := range calls {
		for _, a := range c.Arguments {
			if a.Name == name && (a.Shown == "" || !strings.ContainsAny(a.Shown[:1], "(-−0123456789")) {
				return false
			}
		}
	}
	return true
}
