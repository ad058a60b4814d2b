package check

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// fit checks an argument against a parameter and turns it into its shape.
func (b *binding) fit(p *library.Param, n program.Node, e syntax.Expr) program.Node {
	switch p.Shape.Kind {
	case library.RecordOf:
		return b.fitRecord(p, n, e)
	case library.Table:
		return b.fitTable(p, n, e)
	case library.ListOf:
		return b.fitList(p, n, e)
	}
	t := n.Type()
	if elem, list := program.Element(t); list && b.oneArgument() {
		b.each = true
		t = elem
	}
	if !b.fits(p, t, e) {
		return nil
	}
	return b.literalText(p, n, e)
}

// oneArgument reports whether the function takes one scalar and so works element
// by element on a list.
func (b *binding) oneArgument() bool {
	return len(b.fn.Params) == 1 || len(b.fn.Params) > 1 && b.fn.Params[0].Required() && !b.fn.Params[1].Required()
}

// fits checks a scalar.
func (b *binding) fits(p *library.Param, t program.Type, e syntax.Expr) bool {
	want := p.Shape
	switch want.Kind {
	case library.Quantity, library.Integer:
		return b.fitsQuantity(p, t, e)
	case library.Bool:
		if _, ok := t.(program.Bool); ok {
			return true
		}
		b.wanted(p, t, "a truth (yes or no)", e)
	case library.Text:
		if _, ok := t.(program.Text); ok {
			return true
		}
		b.wanted(p, t, "a text", e)
	}
	return false
}

func (b *binding) wanted(p *library.Param, t program.Type, want string, e syntax.Expr) {
	b.fail(e.Place(), b.subject(p)+" wants "+want+", this is "+t.String(), b.fieldHint(p, t, e))
}

// subject is who wants something: the parameter, or the function where it has
// only one, whose name a builder need not know.
func (b *binding) subject(p *library.Param) string {
	if len(b.fn.Params) == 1 && b.fn.Params[0].Name == p.Name {
		return message.Quote(b.fn.Name)
	}
	return message.Quote(p.Name)
}

// fieldHint points to the field of a record that a parameter means, else to
// what the function wants.
func (b *binding) fieldHint(p *library.Param, t program.Type, e syntax.Expr) string {
	r, isRecord := t.(*program.Record)
	name, named := syntax.Dotted(e)
	if isRecord && named && r.Index(p.Name) >= 0 {
		return "write " + message.Quote(name+"."+p.Name)
	}
	return cmp.Or(b.headingHint(t, e), b.signatureHint())
}

// measuredCell is a cell with a unit of its own.
var measuredCell = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[-+0-9.]+ *([^0-9 ].*)$`) })

// headingHint mends a column of texts that are numbers with their unit, which belongs into
// the heading; empty for any other.
func (b *binding) headingHint(t program.Type, e syntax.Expr) string {
	field, isField := e.(*syntax.Field)
	if _, isText := t.(program.Text); !isText || !isField {
		return ""
	}
	of, isRef := b.expr(field.X).(*program.Ref)
	if !isRef || of.Def.Rows() == nil {
		return ""
	}
	table, ok := of.Def.Type.(*program.Table)
	if !ok {
		return ""
	}
	column := slices.IndexFunc(table.Columns, func(f program.Field) bool { return f.Name == field.Name.Name })
	if rows := of.Def.Rows().Cells; column >= 0 && len(rows) > 0 {
		text, _ := rows[0][column].(string)
		if m := measuredCell().FindStringSubmatch(text); m != nil && isUnit(m[1]) {
			return "give the unit in the heading, " + message.Quote(field.Name.Name+" ["+m[1]+"]") + ", and numbers alone below it"
		}
	}
	return ""
}

func (b *binding) fitsQuantity(p *library.Param, t program.Type, e syntax.Expr) bool {
	q, ok := t.(program.Quantity)
	if !ok {
		b.wanted(p, t, wantText(p), e)
		return false
	}
	if p.Shape.Kind == library.Quantity && p.Shape.Dim != "" {
		return b.anyDim(p, q, e)
	}
	want := p.Shape.Unit.Kind
	if p.Shape.Kind == library.Integer {
		want = units.Kind{}
	}
	if q.Dim == want.Dim && q.Point != want.Point {
		b.fail(e.Place(), b.subject(p)+" wants "+want.String()+", this is "+q.String(), pointHint)
		return false
	}
	if q.Dim != want.Dim {
		d := message.Diagnostic{Span: e.Place(), Summary: b.subject(p) + " wants " + want.String() + ", this is " + q.String(), Hint: cmp.Or(b.factorHint(e, q, want, nil), b.signatureHint())}
		if q.Dim.IsNumber() {
			b.bare(&d, p.Shape.Unit.String(), e)
		}
		b.say(d)
		return false
	}
	if !program.MarksAgree(q.Mark, want.Mark) {
		b.fail(e.Place(), b.subject(p)+" wants "+want.String()+", this is "+q.String()+": a factor of 2π would be lost", rateHint)
		return false
	}
	return true
}

// bare says how a number without a unit is written, here or at its own line.
func (b *binding) bare(d *message.Diagnostic, unit string, e syntax.Expr) {
	if n, ok := e.(*syntax.Number); ok && n.Unit == nil {
		d.Hint = "write " + message.Quote(n.Text+" "+unit)
		return
	}
	def, n := b.bareInput(e)
	if def == nil || n.Unit != nil {
		return
	}
	d.Hint = message.Quote(def.Name) + " is written without a unit: write " + message.Quote(n.Text+" "+unit)
	d.Notes = append(d.Notes, message.Note{Span: def.Stmt.Place(), Text: "it stands here"})
}

func wantText(p *library.Param) string {
	if p.Shape.Kind == library.Integer {
		return "a whole number"
	}
	if p.Shape.Dim != "" {
		return "a quantity"
	}
	return p.Shape.Unit.Kind.String()
}

// anyDim binds the dimension that x or y stands for, or holds it to an earlier
// binding.
func (b *binding) anyDim(p *library.Param, q program.Quantity, e syntax.Expr) bool {
	if q.Point && !p.Shape.Points {
		return b.noPoint(e, q, "used in "+message.Quote(b.fn.Name))
	}
	was, bound := b.dims[p.Shape.Dim]
	if !bound {
		b.dims[p.Shape.Dim] = q
		return true
	}
	if was.Dim != q.Dim || was.Point != q.Point || !program.MarksAgree(was.Mark, q.Mark) {
		b.fail(e.Place(), message.Quote(p.Name)+" wants "+was.String()+" here, this is "+q.String(), "it must fit the other arguments of "+message.Quote(b.fn.Name))
		return false
	}
	return true
}

// literalText checks a text written out against what it may be.
func (b *binding) literalText(p *library.Param, n program.Node, e syntax.Expr) program.Node {
	k, ok := n.(*program.Const)
	if ref, stands := n.(*program.Ref); stands && program.Is[*program.Argument](ref.Def) {
		k, ok = ref.Def.Node().(*program.Const)
	}
	text, isText := "", false
	if ok {
		text, isText = k.Value.(string)
	}
	if !isText || len(p.Shape.Values) == 0 {
		return n
	}
	for _, v := range p.Shape.Values {
		if v == text {
			return n
		}
	}
	hint := "it may be \"" + strings.Join(p.Shape.Values, "\", \"") + "\""
	b.fail(e.Place(), message.Quote(p.Name)+" cannot be \""+text+"\"", hint)
	return nil
}

func (b *binding) fitList(p *library.Param, n program.Node, e syntax.Expr) program.Node {
	l, ok := n.Type().(program.List)
	if !ok {
		b.wanted(p, n.Type(), "a list or a column", e)
		return nil
	}
	elem := library.Param{Name: p.Name, Help: p.Help, Shape: *p.Shape.Elem}
	if !b.fits(&elem, l.Elem, e) {
		return nil
	}
	return n
}

func (b *binding) fitRecord(p *library.Param, n program.Node, e syntax.Expr) program.Node {
	r, ok := n.Type().(*program.Record)
	if !ok {
		b.wanted(p, n.Type(), "a record with "+message.Quote(firstNames(p.Shape.Params)), e)
		return nil
	}
	picks, ok := b.picks(p, r.Fields, e)
	if !ok {
		return nil
	}
	return &program.Fit{Typed: typed(e.Place(), r), X: n, Picks: picks, Rows: false}
}

func firstNames(params []library.Param) string {
	var names []string
	for i := range params {
		if params[i].Required() {
			names = append(names, params[i].Name)
		}
	}
	return strings.Join(names, "`, `")
}

// picks finds the wanted fields among the given ones.
func (b *binding) picks(p *library.Param, have []program.Field, e syntax.Expr) ([]program.Pick, bool) {
	picks := make([]program.Pick, len(p.Shape.Params))
	for i := range p.Shape.Params {
		want := &p.Shape.Params[i]
		picks[i] = program.Pick{Param: want, Index: program.IndexOf(have, want.Name), Default: want.Default}
		if picks[i].Index < 0 {
			if want.Required() {
				b.missing(p, want, have, e)
				return nil, false
			}
			continue
		}
		if !b.pick(p, want, &picks[i], have[picks[i].Index], e) {
			return nil, false
		}
	}
	return picks, true
}

func (b *binding) pick(p, want *library.Param, pick *program.Pick, have program.Field, e syntax.Expr) bool {
	named := *want
	named.Name = p.Name + "." + want.Name
	switch want.Shape.Kind {
	case library.RecordOf:
		r, ok := have.Type.(*program.Record)
		if !ok {
			b.wanted(&named, have.Type, "a record", e)
			return false
		}
		nested, ok := b.picks(&named, r.Fields, e)
		pick.Nested = nested
		return ok
	case library.ListOf:
		l, ok := have.Type.(program.List)
		if !ok {
			b.wanted(&named, have.Type, "a list", e)
			return false
		}
		named.Shape = *want.Shape.Elem
		return b.fits(&named, l.Elem, e)
	case library.Table:
		if _, ok := have.Type.(*program.Table); !ok {
			b.wanted(&named, have.Type, "a table", e)
			return false
		}
		return true
	}
	return b.fits(&named, have.Type, e)
}

// missing says which heading to add.
func (b *binding) missing(p, want *library.Param, have []program.Field, e syntax.Expr) {
	heading := want.Name
	if u := want.Shape.Unit; !u.IsZero() && u.String() != "" {
		heading += " [" + u.String() + "]"
	}
	hint := "add a column with the heading " + message.Quote(heading)
	if near := b.nearField(want.Name, have); near != "" {
		hint += ", or is it " + message.Quote(near) + " that is meant?"
	}
	b.fail(e.Place(), "no "+message.Quote(want.Name)+" here, which "+message.Quote(b.fn.Name)+" needs as "+message.Quote(p.Name)+" ("+want.Help+")", hint)
}

func (b *binding) fitTable(p *library.Param, n program.Node, e syntax.Expr) program.Node {
	columns, ok := rowFields(n.Type())
	if !ok {
		b.wanted(p, n.Type(), "a table, a record or a list of records", e)
		return nil
	}
	picks, ok := b.picks(p, columns, e)
	if !ok {
		return nil
	}
	return &program.Fit{Typed: typed(e.Place(), n.Type()), X: n, Picks: picks, Rows: true}
}

// rowFields is what each row of a table, or each record of a list, has. A single
// record is a table of one row.
func rowFields(t program.Type) ([]program.Field, bool) {
	switch t := t.(type) {
	case *program.Table:
		return t.Columns, true
	case *program.Record:
		return t.Fields, true
	}
	elem, list := program.Element(t)
	record, ok := elem.(*program.Record)
	if !list || !ok {
		return nil, false
	}
	return record.Fields, true
}

func isUnit(text string) bool {
	_, err := units.Parse(text)
	return err == nil
}
