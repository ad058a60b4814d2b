package formula

import (
	"html"
	"strings"
)

// Clauses are the parts of a doc comment's formula line between its semicolons, each
// as HTML: what reads as a formula is set, what reads as words stays text. Such lines
// are written for people, in the notation of a table of formulas: E = C·V²/2,
// √(2W/ρS), t = τ·ln 2.
func Clauses(text string) (list []string) {
	for _, part := range strings.Split(strings.TrimSuffix(strings.TrimSpace(text), "."), "; ") {
		list = append(list, clause(part))
	}
	return list
}

// clause sets every formula in a text that can be read as one.
func clause(text string) string {
	tokens := scan(text)
	var out strings.Builder
	for at := 0; at < len(tokens); {
		p := &reader{tokens: tokens, at: at}
		it, ok := p.formula()
		if !ok {
			out.WriteString(html.EscapeString(tokens[at].gap + tokens[at].text))
			at++
			continue
		}
		gap, behind := tokens[at].gap, ""
		for at = p.at; at < len(tokens) && closes(tokens[at]); at++ {
			behind += html.EscapeString(tokens[at].text)
		}
		out.WriteString(gap + held(`<math>`+it.ml+"</math>", behind))
	}
	return strings.TrimSpace(out.String())
}

// held is a formula with the marks behind it, on one line.
func held(formula, behind string) string {
	if behind == "" {
		return formula
	}
	return `<span class="nb">` + formula + behind + "</span>"
}

// closes reports whether a token is a mark that belongs to what stands before it: no
// line may begin with it, though browsers let one end behind a formula.
func closes(t token) bool { return t.gap == "" && t.text != "" && strings.Contains(",;.:)!?", t.text) }

// reader climbs through the tokens of a clause.
type reader struct {
	tokens []token
	at     int
	high   bool // in an exponent, where fractions have a solidus
	signs  int  // operators and the like that were read: without one, a word is only a word
}

func (r *reader) peek() token { return r.ahead(0) }

func (r *reader) ahead(n int) token {
	if r.at+n < len(r.tokens) {
		return r.tokens[r.at+n]
	}
	return token{}
}

func (r *reader) take() token {
	t := r.peek()
	r.at++
	return t
}

// formula is a formula that begins here: one with something in it that prose has
// not, or a letter that stands for a quantity.
func (r *reader) formula() (item, bool) {
	from := r.at
	it, ok := r.relation()
	if !ok || r.signs == 0 && !r.isSymbolAlone(from) {
		return item{}, false
	}
	return it, true
}

// isSymbolAlone reports whether one token was read that is a symbol by its looks: a
// Greek or capital letter, a letter with a mark, but not an article.
func (r *reader) isSymbolAlone(from int) bool {
	if r.at != from+1 {
		return r.at > from+1
	}
	t := r.tokens[from]
	return t.kind == symbolToken && (t.text != "a" && t.text != "I" || r.at == len(r.tokens))
}

// relation is sums with equals signs and the like between them.
func (r *reader) relation() (item, bool) {
	left, ok := r.sum()
	if !ok {
		return item{}, false
	}
	for isRelation(r.peek().text) {
		mark, signs := r.at, r.signs
		op := r.take().text
		right, ok := r.sum()
		if !ok {
			r.at, r.signs = mark, signs
			break
		}
		r.signs++
		left = item{ml: left.ml + sign(op) + right.ml, tall: left.tall || right.tall}
	}
	return left, true
}

func isRelation(text string) bool {
	return text != "" && strings.Contains("= < > ≤ ≥ ≈", text) && text != " "
}

func (r *reader) sum() (item, bool) {
	it, ok := r.signed((*reader).product)
	if !ok {
		return item{}, false
	}
	return r.more(it)
}

func isMinus(text string) bool { return text == "-" || text == "−" }

// more is what is added to a first summand.
func (r *reader) more(left item) (item, bool) {
	for {
		op := r.peek().text
		if op != "+" && op != "±" && !isMinus(op) {
			return left, true
		}
		mark, signs := r.at, r.signs
		r.take()
		right, ok := r.product()
		if !ok {
			r.at, r.signs = mark, signs
			return left, true
		}
		r.signs++
		left = item{ml: left.ml + sign(op) + right.ml, bind: plus, tall: left.tall || right.tall}
	}
}

// product is factors with dots and fractions; what stands together without a sign
// belongs together before it is divided.
func (r *reader) product() (item, bool) {
	left, ok := r.group()
	if !ok {
		return item{}, false
	}
	for {
		op := r.peek().text
		if op != "·" && op != "×" && op != "/" {
			return left, true
		}
		mark, signs := r.at, r.signs
		r.take()
		right, ok := r.group()
		if !ok {
			r.at, r.signs = mark, signs
			return left, true
		}
		r.signs++
		if op == "/" && r.high {
			left = item{ml: left.tight(times).ml + `<mo lspace="0" rspace="0">/</mo>` + right.tight(power).ml, bind: times}
			continue
		}
		if op == "/" {
			left = item{ml: fraction(left.inside(), right.inside()), bind: times, tall: true, whole: true}
			continue
		}
		between := operator("⋅")
		if left.numeric && right.numeric || op == "×" {
			between = operator("×")
		}
		left = item{ml: left.unbracketed() + between + right.unbracketed(), bind: times, numeric: right.numeric, tall: left.tall || right.tall}
	}
}

// unbracketed is a factor of a product, which a fraction alone in brackets is
// without them.
func (i item) unbracketed() string {
	if i.whole && i.bare != "" {
		return i.bare
	}
	return i.tight(times).ml
}

// inside is a formula for above or below a bar, its own brackets left off.
func (i item) inside() string {
	if i.bare != "" {
		return i.bare
	}
	return i.ml
}

// group is powers side by side: 2W, 4PR, 2√x, π(D + d).
func (r *reader) group() (item, bool) {
	left, ok := r.power()
	if !ok {
		return item{}, false
	}
	for r.joins() {
		mark, signs := r.at, r.signs
		right, ok := r.power()
		if !ok {
			r.at, r.signs = mark, signs
			break
		}
		between := ""
		if left.wordy || right.wordy || r.tokens[mark].gap != "" {
			between = thin
		}
		r.signs++
		left = item{ml: left.ml + between + right.ml, bind: times, tall: left.tall || right.tall}
	}
	return left, true
}

// joins reports whether the next token stands directly against the last one, or is
// the dt behind an integral.
func (r *reader) joins() bool {
	t := r.peek()
	switch t.kind {
	case symbolToken, openToken, rootToken, differentialToken:
		return t.gap == "" || t.kind == differentialToken
	}
	return false
}

// power is something with what is raised on it.
func (r *reader) power() (item, bool) {
	base, ok := r.primary()
	if !ok {
		return item{}, false
	}
	for {
		t := r.peek()
		switch {
		case t.kind == raisedToken:
			r.take()
			r.signs++
			base = base.power(high(t.text))
		case t.text == "^" && r.ahead(1).text != "":
			mark := r.at
			r.take()
			exponent, ok := r.exponent()
			if !ok {
				r.at = mark
				return base, true
			}
			r.signs++
			base = base.power(exponent)
		default:
			return base, true
		}
	}
}

// high is what was written high, figures or a prime.
func high(text string) string {
	if strings.Trim(text, "′") == "" {
		return operator(text)
	}
	return number(text)
}

func (i item) power(exponent string) item {
	if i.ml == identifier("e") {
		i.ml = upright("e") // the base of the exponential function
	}
	held := i.tight(atom)
	return item{ml: held.raisedTo(exponent), bind: power, tall: held.tall}
}

// exponent is a number with its sign, a quotient of figures, or a bracket.
func (r *reader) exponent() (string, bool) {
	ml := ""
	if isMinus(r.peek().text) {
		r.take()
		ml = `<mo form="prefix">−</mo>`
	}
	if r.peek().kind == openToken {
		r.take()
		inside := &reader{tokens: r.tokens, at: r.at, high: true}
		it, ok := inside.relation()
		if !ok || inside.peek().kind != closeToken {
			return "", false
		}
		r.at = inside.at + 1
		return ml + it.ml, true
	}
	if part := quarters[r.peek().text]; part != "" {
		r.take()
		return ml + part, true
	}
	it, ok := r.primary()
	return ml + it.ml, ok
}

// quarters are the fractions of one sign as an exponent has them.
var quarters = map[string]string{"½": solidus("1", "2"), "⅓": solidus("1", "3"), "⅔": solidus("2", "3"), "¼": solidus("1", "4"), "¾": solidus("3", "4")}

func solidus(a, b string) string {
	return number(a) + `<mo lspace="0" rspace="0">/</mo>` + number(b)
}
