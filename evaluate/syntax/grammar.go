package syntax

import (
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// The grammar of statements. What stands in it by @@ and is not described here
// reads itself: parsers.go.
type (
	statementLine struct {
		Head     *headLine     `parser:"  @@"`
		Limit    *limitLine    `parser:"| 'limit':Verb @@"`
		Measured *measuredLine `parser:"| 'measured':Verb @@"`
		Study    *studyLine    `parser:"| @@"`
		Budget   *budgetParser `parser:"| 'budget':Verb @@"`
		Both     *bothLine     `parser:"| 'correlation':Verb @@"`
		Chart    *chartLine    `parser:"| 'chart':Verb @@"`
		Use      *useLine      `parser:"| 'use':Verb @@"`
		Digits   *digitsLine   `parser:"| 'digits':Verb @@"`
		Draws    *countParser  `parser:"| 'draws':Verb @@"`
		Show     *showLine     `parser:"| 'show':Verb @@"`
		Overview *overviewLine `parser:"| @@"`
	}
	overviewLine struct {
		Word string `parser:"@'overview':Verb"`
	}
	// headLine is a definition or a function of the builder's own.
	headLine struct {
		Name   headParser   `parser:"@@"`
		Params *paramList   `parser:"@@?"`
		Unit   unitParser   `parser:"@@"`
		Study  *studyLine   `parser:"'=' ( @@"`
		Value  *valueParser `parser:"| @@ )"`
	}
	paramList struct {
		First *paramLine  `parser:"'(' ( @@"`
		More  []paramLine `parser:"( ',' @@ )* )? ')'"`
	}
	paramLine struct {
		Name nameParser `parser:"@@"`
		Unit unitParser `parser:"@@"`
	}
	limitLine struct {
		Bound  limitParser `parser:"@@"`
		Advice textParser  `parser:"@@"`
	}
	measuredLine struct {
		Of    refParser  `parser:"@@"`
		Value exprParser `parser:"'=' @@"`
	}
	bothLine struct {
		First  addressParser     `parser:"@@ ','"`
		Second addressParser     `parser:"@@ '='"`
		Value  correlationParser `parser:"@@"`
	}
	studyLine struct {
		Vary   *varyLine   `parser:"  'vary':Verb @@"`
		Adjust *adjustLine `parser:"| 'adjust':Verb @@"`
		Tune   *tuneLine   `parser:"| 'tune':Verb @@"`
	}
	varyLine struct {
		Over    []sweepLine  `parser:"@@ ( ',' @@ )*"`
		Outputs []outputLine `parser:"':' @@ ( ',' @@ )*"`
	}
	adjustLine struct {
		Over  sweepLine       `parser:"@@ 'until'"`
		Until conditionParser `parser:"@@"`
	}
	tuneLine struct {
		Over []sweepLine `parser:"@@ ( ',' @@ )* 'for'"`
		Goal string      `parser:"@( 'least' | 'most' )"`
		Of   refParser   `parser:"@@"`
	}
	sweepLine struct {
		Of   addressParser `parser:"@@ 'in'"`
		From exprParser    `parser:"@@"`
		To   *exprParser   `parser:"( 'to' @@"`
		By   *exprParser   `parser:"( 'by' @@ )? )?"`
	}
	outputLine struct {
		Of   refParser  `parser:"@@"`
		Unit unitParser `parser:"@@"`
	}
	chartLine struct {
		Title   neededText   `parser:"@@ ':'"`
		Lines   []outputLine `parser:"@@ ( ',' @@ )*"`
		Against outputLine   `parser:"'against' @@"`
		From    []refParser  `parser:"'from' @@ ( ',' @@ )*"`
	}
	showLine struct {
		Of      rowsParser   `parser:"@@"`
		Columns []outputLine `parser:"( ':' @@ ( ',' @@ )* )?"`
		Choices choiceParser `parser:"@@"`
		Total   []nameParser `parser:"( 'total' @@ ( ',' @@ )* )?"`
	}
	useLine struct {
		Path    neededText  `parser:"@@"`
		As      *nameParser `parser:"( 'as' @@ )?"`
		Columns *paramList  `parser:"@@?"`
	}
	refList struct {
		First firstRef    `parser:"@@"`
		More  []refParser `parser:"( ',' @@ )*"`
	}
	digitsLine struct {
		Count countParser `parser:"@@"`
		Names *refList    `parser:"@@?"`
	}
)

// grammar is built once; a built parser is safe for use by several at once.
var grammar = sync.OnceValue(func() *participle.Parser[statementLine] {
	return participle.MustBuild[statementLine](participle.Lexer(definition{}), participle.UseLookahead(0))
})

// study is the tree of vary, adjust or tune. The place is set by the caller.
func (s *studyLine) study(at At) Expr {
	switch {
	case s.Vary != nil:
		return &Vary{at, sweeps(s.Vary.Over), outputs(s.Vary.Outputs)}
	case s.Adjust != nil:
		return &Adjust{at, s.Adjust.Over.sweep(), s.Adjust.Until.Compare}
	case s.Tune != nil:
		return &Tune{at, sweeps(s.Tune.Over), s.Tune.Goal == "most", s.Tune.Of.Expr}
	}
	panic("syntax: a study of the grammar has no case here")
}

func (s sweepLine) sweep() Sweep {
	if s.To == nil {
		return Sweep{Of: s.Of.Expr, In: s.From.Expr}
	}
	w := Sweep{Of: s.Of.Expr, From: s.From.Expr, To: s.To.Expr}
	if s.By != nil {
		w.By = s.By.Expr
	}
	return w
}

func sweeps(lines []sweepLine) []Sweep {
	all := make([]Sweep, len(lines))
	for i, l := range lines {
		all[i] = l.sweep()
	}
	return all
}

func (o outputLine) output() Output { return Output{o.Of.Expr, o.Unit.Unit} }

func outputs(lines []outputLine) []Output {
	all := make([]Output, len(lines))
	for i, l := range lines {
		all[i] = l.output()
	}
	return all
}

func (p *paramList) params() []Param {
	if p == nil {
		return nil
	}
	all := []Param{}
	if p.First != nil {
		all = append(all, p.First.param())
	}
	for _, l := range p.More {
		all = append(all, l.param())
	}
	return all
}

func (p paramLine) param() Param { return Param{p.Name.Ident, p.Unit.Unit} }

func refs(list []refParser) []Expr {
	var all []Expr
	for _, r := range list {
		all = append(all, r.Expr)
	}
	return all
}

func (r *refList) refs() []Expr {
	if r == nil {
		return nil
	}
	return append([]Expr{r.First.Expr}, refs(r.More)...)
}

// statement is the tree of a line.
func (l *statementLine) statement(head Head, list []lexer.Token) Statement {
	switch {
	case l.Head != nil:
		return l.Head.statement(head, list)
	case l.Limit != nil:
		return &Limit{head, l.Limit.Bound.Compare, l.Limit.Advice.Value}
	case l.Measured != nil:
		return &Measured{head, l.Measured.Of.Expr, l.Measured.Value.Expr}
	case l.Study != nil:
		return &Study{head, l.Study.study(At{head.Span})}
	case l.Budget != nil:
		return &Budget{head, l.Budget.Of, l.Budget.Coverage}
	case l.Both != nil:
		return &Correlation{head, [2]Expr{l.Both.First.Expr, l.Both.Second.Expr}, *l.Both.Value.Number}
	case l.Chart != nil:
		return &Chart{head, *l.Chart.Title.Text, outputs(l.Chart.Lines), l.Chart.Against.output(), refs(l.Chart.From)}
	case l.Use != nil:
		return l.Use.statement(head)
	case l.Digits != nil:
		return &Digits{head, *l.Digits.Count.Number, l.Digits.Names.refs()}
	case l.Draws != nil:
		return &Draws{head, *l.Draws.Number}
	case l.Show != nil:
		return l.Show.statement(head)
	case l.Overview != nil:
		return &Overview{head}
	}
	panic("syntax: a statement of the grammar has no case here")
}

func (l *headLine) statement(head Head, list []lexer.Token) Statement {
	var value Expr
	if l.Study != nil {
		for i := range list {
			if list[i].Type == tokenVerb {
				at := spanOf(&list[i])
				at.End = head.Span.End
				value = l.Study.study(At{at})
				break
			}
		}
	} else {
		value = l.Value.Expr
	}
	if l.Params != nil {
		return &Function{head, l.Name.Ident, l.Params.params(), l.Unit.Unit, value}
	}
	return &Definition{head, l.Name.Ident, l.Unit.Unit, value}
}

// statement puts the choices behind the columns around what is shown.
func (l *showLine) statement(head Head) Statement {
	s := &Show{Head: head, Of: l.Of.Expr, Columns: outputs(l.Columns)}
	if len(l.Columns) == 0 {
		s.Columns = nil
	}
	for _, c := range l.Choices.list {
		c.X, s.Of = s.Of, c
		c.Span = c.X.Place().To(c.Span)
	}
	for _, t := range l.Total {
		s.Total = append(s.Total, t.Ident)
	}
	return s
}

func (l *useLine) statement(head Head) Statement {
	u := &Use{Head: head, Path: *l.Path.Text, Columns: l.Columns.params()}
	if l.As != nil {
		u.As = l.As.Ident
	}
	return u
}
