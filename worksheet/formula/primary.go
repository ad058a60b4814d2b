package formula

import (
	"slices"
	"strings"

	"inkwing/units"
)

// primary is one thing: a number with its unit, a symbol, a function of something,
// a bracket, a root, a sum over all.
func (r *reader) primary() (item, bool) {
	t := r.peek()
	switch t.kind {
	case numberToken:
		r.take()
		return r.measured(t), true
	case symbolToken, differentialToken:
		r.take()
		return symbolOf(t.text), true
	case functionToken:
		return r.function()
	case openToken:
		return r.bracket()
	case rootToken:
		r.take()
		return r.root()
	case overToken:
		return r.over()
	case wordToken:
		return r.name()
	}
	return item{}, false
}

// measured is a number with the unit behind it.
func (r *reader) measured(t token) item {
	it := item{ml: numeral(t.text), bind: atom, numeric: true}
	if fraction, ok := vulgar[t.text]; ok {
		it = item{ml: fraction, bind: atom, numeric: true, tall: true}
	}
	switch {
	case r.peek().text == "°" || r.peek().text == "%":
		unit := r.take()
		it.ml += unitText(gap(unit.gap), unit.text)
		r.signs++
	case r.peek().gap == " " && isUnit(r.peek()):
		it.ml = row(it.ml + unitText(unitGap, r.unit()))
		r.signs++
	}
	return it
}

var vulgar = map[string]string{
	"½": fraction(number("1"), number("2")), "⅓": fraction(number("1"), number("3")), "⅔": fraction(number("2"), number("3")),
	"¼": fraction(number("1"), number("4")), "¾": fraction(number("3"), number("4")),
}

func isUnit(t token) bool {
	return (t.kind == symbolToken || t.kind == wordToken) && units.Is(t.text)
}

// unit is the run of a unit: K/m, Ω·mm²/m, kg/m³, K^-1, °C. A single letter behind a
// dot is rather a quantity.
func (r *reader) unit() string {
	text := r.unitPart()
	for {
		next := r.ahead(1)
		switch {
		case r.peek().text == "/" && r.peek().gap == "" && next.gap == "" && isUnit(next):
		case r.peek().text == "·" && next.gap == "" && isUnit(next) && len([]rune(next.text)) > 1:
		case r.peek().text == "/" && r.peek().gap == "" && next.text == "(":
			below, ok := r.unitBracket()
			if !ok {
				return text
			}
			text += below
			continue
		default:
			return text
		}
		text += r.take().text + r.unitPart()
	}
}

// unitBracket is /(kg·K), units alone below the stroke.
func (r *reader) unitBracket() (string, bool) {
	mark := r.at
	text := r.take().text + r.take().text
	for isUnit(r.peek()) {
		text += r.unitPart()
		switch next := r.take().text; next {
		case "·":
			text += next
		case ")":
			return text + next, true
		}
	}
	r.at = mark
	return "", false
}

func (r *reader) unitPart() string {
	text := r.take().text
	if r.peek().kind == raisedToken && r.peek().gap == "" {
		return text + raisedDigits.Replace(r.take().text)
	}
	if r.peek().text == "^" && isMinus(r.ahead(1).text) && r.ahead(2).kind == numberToken {
		r.take()
		r.take()
		return text + "⁻" + raisedDigits.Replace(r.take().text)
	}
	return text
}

// symbolOf is a letter with its marks, as tables of formulas write them: Vd, CD0, xᵢ,
// and products of two letters such as PR.
func symbolOf(text string) item {
	if text == "…" {
		return item{ml: operator("…"), bind: atom}
	}
	if it, ok := exceptions[text]; ok {
		return it
	}
	if base, marks, found := strings.Cut(text, "\u0304"); found {
		over := `<mover accent="true">` + identifier(base) + operator("¯") + "</mover>"
		if marks == "" {
			return item{ml: over, bind: atom}
		}
		return item{ml: lowered(over, below(marks)), bind: atom}
	}
	if rest, ok := strings.CutPrefix(text, "d"); ok && isDifferential(text) {
		return item{ml: upright("d") + identifier(rest), bind: times}
	}
	if base, marks := subscripted(text); marks != "" {
		return symbolItem(base, marks)
	}
	letters := []rune(text)
	if len(letters) == 2 && isProduct(letters) {
		return item{ml: identifier(string(letters[0])) + identifier(string(letters[1])), bind: times}
	}
	if len(letters) == 3 && letters[0] >= 'a' && strings.TrimRight(text, "0123456789") != text && letters[1] > '9' {
		return symbolItem(string(letters[0]), string(letters[1:]))
	}
	if len(letters) == 2 && letters[1] > '9' && letters[0] >= 'a' {
		return symbolItem(string(letters[0]), string(letters[1:]))
	}
	return symbolItem(taken(text))
}

// exceptions are what other rules would read otherwise: units under a bar, and the
// voltage of a line.
var exceptions = map[string]item{
	"mm": {ml: unitText("", "mm"), bind: atom}, "VL": symbolItem("V", "L"),
}

// isDifferential reports whether a word is a d before a letter.
func isDifferential(text string) bool {
	letters := []rune(text)
	return len(letters) == 2 && letters[0] == 'd' && letters[1] > '9'
}

// products are letters that stand together and are multiplied, though they look
// like a letter with its mark.
var products = []string{"ka", "kh", "kg", "kt", "PV"}

// isProduct reports whether two letters are two quantities.
func isProduct(l []rune) bool {
	if slices.Contains(products, string(l)) {
		return true
	}
	upper := func(r rune) bool { return r >= 'A' && r <= 'Z' }
	greek := func(r rune) bool { return r >= 'α' && r <= 'ω' }
	switch {
	case l[1] <= '9', string(l) == "AR", string(l) == "VL":
		return false
	case l[0] == 'π', l[0] == 'ω', greek(l[1]):
		return true
	}
	return upper(l[1]) && l[0] != 'C'
}

// subscripted takes lowered figures and letters apart: xᵢ₊₁, logₑ.
func subscripted(text string) (base, marks string) {
	for _, r := range text {
		if plain := loweredLetters[r]; plain != 0 {
			marks += string(plain)
		} else {
			base += string(r)
		}
	}
	return base, marks
}

var loweredLetters = map[rune]rune{'ᵢ': 'i', 'ₙ': 'n', 'ₑ': 'e', '₊': '+', '₀': '0', '₁': '1', '₂': '2', '₃': '3', '₄': '4', '₅': '5', '₆': '6', '₇': '7', '₈': '8', '₉': '9'}

// function is a function's name with what it is of, in brackets or without.
func (r *reader) function() (item, bool) {
	mark := r.at
	t := r.take()
	name := words(t.text)
	if base, marks := subscripted(t.text); marks != "" {
		name = lowered(words(base), below(marks))
	}
	if r.peek().kind == openToken && r.peek().gap == "" {
		it, ok := r.bracket()
		if !ok {
			r.at = mark
			return item{}, false
		}
		r.signs++
		return item{ml: row(name + "<mo>\u2061</mo>" + it.ml), bind: atom, tall: it.tall, wordy: true}, true
	}
	it, ok := r.group()
	if !ok {
		r.at = mark
		return item{}, false
	}
	r.signs++
	return item{ml: row(name + thin + it.ml), bind: times, tall: it.tall, wordy: true}, true
}

var closers = map[string]string{"(": ")", "[": "]", "|": "|"}

// bracket is what stands in brackets or between bars.
func (r *reader) bracket() (item, bool) {
	mark := r.at
	open := r.take()
	inner := &reader{tokens: r.tokens, at: r.at, high: r.high}
	it, ok := inner.relation()
	ml, tall := it.ml, it.tall
	for ok && inner.peek().text == "," {
		inner.take()
		var next item
		next, ok = inner.relation()
		ml, tall = ml+operator(",")+thin+next.ml, tall || next.tall
	}
	if !ok || inner.peek().text != closers[open.text] {
		r.at = mark
		return item{}, false
	}
	r.at = inner.at + 1
	r.signs += inner.signs
	out := item{ml: bracketed(open.text, ml, closers[open.text], tall), bind: atom, tall: tall}
	if open.text == "(" {
		out.bare, out.whole = ml, it.whole && ml == it.ml
	}
	return out, true
}

func (r *reader) root() (item, bool) {
	it, ok := r.primary()
	if !ok {
		return item{}, false
	}
	r.signs++
	return item{ml: root(it.inside()), bind: atom, tall: true}, true
}

// over is a sum, a product or an integral over what follows: a sum up to the next
// bar or plus, the others with their quotients.
func (r *reader) over() (item, bool) {
	mark := r.at
	sign := r.take().text
	it, ok := r.signed((*reader).group)
	if sign != "Σ" {
		r.at = mark + 1
		it, ok = r.product()
	}
	for ok && sign == "Σ" && r.peek().text == "·" {
		at := r.at
		r.take()
		next, more := r.group()
		if !more {
			r.at = at
			break
		}
		it = item{ml: it.ml + operator("⋅") + next.ml, tall: it.tall || next.tall}
	}
	if !ok {
		r.at = mark
		return item{}, false
	}
	r.signs++
	return item{ml: row(`<mo largeop="true">` + sign + "</mo>" + it.ml), bind: times, tall: true}, true
}

// signed reads something that may have a sign before it.
func (r *reader) signed(read func(*reader) (item, bool)) (item, bool) {
	t := r.peek()
	if t.text != "±" && !isMinus(t.text) {
		return read(r)
	}
	mark := r.at
	r.take()
	it, ok := read(r)
	if !ok {
		r.at = mark
		return item{}, false
	}
	r.signs++
	return item{ml: `<mo form="prefix">` + minus.Replace(t.text) + "</mo>" + it.ml, bind: negative, tall: it.tall}, true
}

var minus = strings.NewReplacer("-", "−")

// name is words that stand for a quantity: one or two, with an operator at a side.
func (r *reader) name() (item, bool) {
	const most = 2
	mark := r.at
	var parts []string
	for r.peek().kind == wordToken && len(parts) <= most && (len(parts) == 0 || !slices.Contains(small, r.peek().text)) {
		parts = append(parts, r.take().text)
	}
	before := mark > 0 && (isOperator(r.tokens[mark-1].text) || r.tokens[mark-1].kind == openToken)
	closed := before && (r.peek().kind == closeToken || r.peek().text == "")
	link := len(parts) == 1 && slices.Contains(small, parts[0]) && !isOperator(r.peek().text) && !closed
	if len(parts) > most || !before && !isOperator(r.peek().text) || link {
		r.at = mark
		return item{}, false
	}
	return item{ml: words(strings.Join(parts, "\u00a0")), bind: atom, wordy: true}, true
}

func isOperator(text string) bool {
	return text != "" && strings.Contains("+−±·×/=<>≤≥", text)
}
