package page

import (
	"html"
	"strings"

	"inkwing/evaluate/explain"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/formula"
)

// pieceWidth is about how many characters of a formula fit on a line of the page.
const pieceWidth = 46

// notation is how a line's formulas are set.
func (l *lineWriter) notation(put bool) formula.Notation {
	n := formula.Notation{
		Symbol: func(at message.Span) string { return l.Symbols[at] },
		Folded: func(name string) bool { return l.isModel(name) },
	}
	if !put && l.Reach != nil {
		n.Reach = func(at message.Span) string { name, _ := l.Reach(at); return name }
	}
	if put {
		n.Put = func(at message.Span) (string, bool) { text, ok := l.Values[at]; return text, ok }
	}
	return n
}

type lineWriter struct {
	*blockWriter
	explain.Line
}

// isModel reports whether a name is a model's of the library, whose arguments are
// many, and not arithmetic.
func (l *lineWriter) isModel(name string) bool {
	for _, c := range l.Calls {
		if c.Name == name {
			return c.Topic != arithmetic
		}
	}
	return false
}

// arithmetic is the topic of functions that formulas are written with.
const arithmetic = "plain"

// definition is a quantity: a card where the library works it, else its formula,
// with the values put in and the result.
func (b *blockWriter) definition(d *syntax.Definition, line explain.Line) {
	l := &lineWriter{b, line}
	switch call, field := l.wholeCall(d.Value); {
	case call != nil:
		l.card(d, call, field)
	case l.callsInRow(d.Value) != nil:
		l.rows(d, l.callsInRow(d.Value))
	case isVary(d.Value):
		l.table(d)
	case l.Step != nil && l.Step.Where != "" || l.isRecord(d.Name.Name):
		l.part(d)
	default:
		l.equation(d)
	}
}

func isVary(x syntax.Expr) bool {
	_, ok := x.(*syntax.Vary)
	return ok
}

// table is a definition that came to a table, which stands below it.
func (l *lineWriter) table(d *syntax.Definition) {
	l.out.put(`<p class="line found" id="`, l.anchor(d.Name.Name), `">`, formula.Math(formula.Name(d.Name.Name)),
		` <span class="note">`, l.study(d.Value), "</span>", note(d.Note))
	l.waits()
	l.out.put("</p>")
}

func (l *lineWriter) isRecord(name string) bool {
	list := l.quantities[name]
	return len(list) > 0 && strings.Contains(list[0].Name, ".")
}

// equation is a formula on as many lines as it takes: as it stands, with the
// values put in, and what comes out.
func (l *lineWriter) equation(d *syntax.Definition) {
	name := d.Name.Name
	l.out.put(`<div class="line" id="`, l.anchor(name), `"><div class="equation">`, formula.Math(formula.Name(name)), `<span class="sides"`)
	l.reach(d.Value.Place())
	l.out.put(">")
	study := l.study(d.Value)
	if study == "" {
		l.rightSides(d)
	}
	l.out.put(" ")
	if _, list := d.Value.(*syntax.List); !list && !l.sameAsTyped(d, l.result(name)) {
		l.shown(name)
	}
	l.out.put("</span></div>")
	if study != "" {
		l.out.put(`<span class="note">`, study, "</span>")
	}
	l.out.put(note(d.Note))
	l.waits()
	l.where()
	l.out.put("</div>")
}

// rightSides are a formula as it stands and with the values put in, or as it is typed.
func (l *lineWriter) rightSides(d *syntax.Definition) {
	if !formula.Sets(d.Value) || l.looksAlike(d) {
		l.out.put(formula.Math(formula.Equals()), " <code>", html.EscapeString(syntax.Source(d.Value)), "</code>")
		return
	}
	sides := l.sides(d.Value)
	sides = append(sides, l.substituted(d.Value, sides)...)
	for i, side := range sides {
		if i > 0 {
			l.out.put(" ")
		}
		l.out.put(side)
	}
}

// shown is what a definition came to, and before something was tried.
func (l *lineWriter) shown(name string) {
	shown := l.result(name)
	if l.isText(name) {
		l.out.put(`<span class="result">`, formula.Math(formula.Equals()), " ", html.EscapeString(shown), "</span>")
	} else {
		l.out.put(`<span class="result"><math>`, formula.Equals(), formula.Value(shown), "</math></span>")
	}
	l.was(name)
}

// was is what a quantity came to before something was tried.
func (m *maker) was(name string) {
	if old, ok := m.Was[name]; ok {
		m.out.put(` <span class="was">was `)
		m.out.text(old)
		m.out.put("</span>")
	}
}

// sides is a formula behind its sign of equality, cut where it is long.
func (l *lineWriter) sides(x syntax.Expr) []string { return cut(l.notation(false), x) }

func cut(n formula.Notation, x syntax.Expr) []string {
	pieces := n.Pieces(x, pieceWidth)
	if len(pieces) > 1 {
		return mathSides(pieces)
	}
	parts := loose(n, x)
	parts[0] = formula.Equals() + parts[0]
	for i := range parts {
		parts[i] = side(parts[i])
	}
	return parts
}

// loose is an expression in parts, between which a line ends where it must. One that
// fits on a phone has no parts.
func loose(n formula.Notation, x syntax.Expr) []string {
	whole := n.Of(x)
	if formula.Width(whole) <= phone {
		return []string{whole}
	}
	return n.Parts(x)
}

// substituted is the formula with the values put in; nothing where that is no other.
func (l *lineWriter) substituted(x syntax.Expr, plain []string) []string {
	if len(l.Values) == 0 || isName(x) {
		return nil
	}
	put := cut(l.notation(true), x)
	if strings.Join(put, "") == strings.Join(plain, "") {
		return nil
	}
	return put
}

func mathSides(pieces []string) []string {
	out := make([]string, len(pieces))
	for i, p := range pieces {
		if i == 0 {
			out[i] = side(formula.Equals() + p)
		} else {
			out[i] = `<span class="more">` + side(p) + "</span>"
		}
	}
	return out
}

// phone is about how many characters of a formula fit on a phone.
const phone = 34

// side is one side of an equation; one that may be wider than a phone moves by
// itself.
func side(ml string) string {
	if formula.Width(ml) > phone {
		return `<span class="long" tabindex="0" role="group" aria-label="formula"><math>` + ml + "</math></span>"
	}
	return `<math>` + ml + "</math>"
}

// isName reports whether an expression only names another quantity: its value is
// the result.
func isName(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Name:
		return true
	case *syntax.Field:
		return isName(x.X)
	case *syntax.Index:
		return isName(x.X)
	}
	return false
}

// looksAlike reports whether a formula would be set as the name before it is: t_charge, and
// charge.time, which is t with charge below it, too.
func (l *lineWriter) looksAlike(d *syntax.Definition) bool {
	return l.notation(false).Of(d.Value) == formula.Name(d.Name.Name)
}

// sameAsTyped reports whether the result says nothing new: a number that is shown
// as it was written.
func (l *lineWriter) sameAsTyped(d *syntax.Definition, shown string) bool {
	return formula.Value(shown) == l.notation(false).Of(d.Value)
}

// result is what a definition came to, where that is one value.
func (l *lineWriter) result(name string) string {
	if list := l.quantities[name]; len(list) == 1 {
		return list[0].Shown
	}
	if l.Step != nil {
		return l.Step.Shown
	}
	return "—"
}

// isText reports whether a quantity is words, a list or a table, which no formula can
// hold.
func (l *lineWriter) isText(name string) bool {
	list := l.quantities[name]
	if len(list) != 1 {
		return len(list) == 0
	}
	switch list[0].Value.(type) {
	case float64, bool:
		return false
	}
	return true
}

// waits says why a line has no value.
func (l *lineWriter) waits() {
	if l.Step != nil && l.Step.State == report.Waiting {
		l.out.put(`<span class="note">waits for <code>`, html.EscapeString(l.Step.Waits), "</code></span>")
	}
}

// part is a record that is no call's result: a row of a table, or one picked from
// others. Its fields stand side by side.
func (l *lineWriter) part(d *syntax.Definition) {
	says := l.study(d.Value)
	if l.Step != nil && says == "" {
		says = ticks(l.Step.Where)
	}
	if says == "" {
		says = "<code>" + html.EscapeString(syntax.Source(d.Value)) + "</code>"
	}
	l.out.put(`<div class="line card" id="`, l.anchor(d.Name.Name), `"><p class="head"><span class="name"`)
	l.reach(d.Value.Place())
	l.out.put(">", formula.Math(formula.Name(d.Name.Name)), `</span><span class="does">`, says, "</span></p>", note(d.Note))
	l.fields(d.Name.Name)
	l.waits()
	l.where()
	l.out.put("</div>")
}

// function is one of the builder's own.
func (b *blockWriter) function(x *syntax.Function) {
	l := &lineWriter{blockWriter: b}
	var params []string
	for _, p := range x.Params {
		params = append(params, formula.Name(p.Name.Name))
	}
	b.out.put(`<div class="line" id="`, b.id("f-"+x.Name.Name), `"><div class="equation">`,
		formula.Math(formula.Called(x.Name.Name, params)), `<span class="sides">`, strings.Join(l.sides(x.Body), " "), "</span></div>", note(x.Note), "</div>")
}
