package equation

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"inkwing/units"
)

// parser climbs through the tokens of a text.
type parser struct {
	text   string
	tokens []token
	at     int
	known  []string
}

func (p *parser) peek() token { return p.ahead(0) }

func (p *parser) ahead(n int) token {
	if p.at+n < len(p.tokens) {
		return p.tokens[p.at+n]
	}
	return token{}
}

func (p *parser) take() token {
	t := p.peek()
	p.at++
	return t
}

// spanFrom is where what was read from a token on stands.
func (p *parser) spanFrom(from int) [2]int {
	return [2]int{p.tokens[from].start, p.tokens[p.at-1].end}
}

func isMinus(text string) bool { return text == "-" || text == "−" }

// sum is products with plus and minus between them.
func (p *parser) sum() (node, bool) {
	left, ok := p.negated(p.product)
	for ok && (p.peek().text == "+" || isMinus(p.peek().text)) {
		op := p.take()
		var right node
		right, ok = p.product()
		left = binary{op: plain(op.text), x: summand(left), y: summand(right), start: op.start, end: p.tokens[min(p.at, len(p.tokens))-1].end}
	}
	return left, ok
}

// summand notes of a letter that it is one.
func summand(n node) node {
	if l, ok := n.(letter); ok {
		l.summand = true
		return l
	}
	return n
}

func plain(op string) string {
	if isMinus(op) {
		return "-"
	}
	return op
}

func (p *parser) negated(read func() (node, bool)) (node, bool) {
	if !isMinus(p.peek().text) {
		return read()
	}
	p.take()
	x, ok := read()
	return negative{x}, ok
}

// product is factors with dots and bars between them.
func (p *parser) product() (node, bool) {
	left, ok := p.group()
	for ok {
		op := p.peek().text
		if op != "·" && op != "×" && op != "/" {
			break
		}
		p.take()
		var right node
		right, ok = p.group()
		left = binary{op: op, x: left, y: right}
	}
	return left, ok
}

// group is powers that stand side by side, which belong together before they are
// divided: 2W, π(D + d).
func (p *parser) group() (node, bool) {
	left, ok := p.power()
	for ok && p.joins() {
		var right node
		right, ok = p.power()
		left = binary{op: "·", x: left, y: right}
	}
	return left, ok
}

// joins reports whether the next token stands directly against a figure, a sign or a
// bracket; against a letter it would make C(V), which is no product.
func (p *parser) joins() bool {
	last, t := p.tokens[p.at-1], p.peek()
	if t.gap || last.kind == nameToken && t.kind == openToken && last.text != "π" {
		return false
	}
	return slices.Contains([]kind{nameToken, functionToken, openToken, rootToken}, t.kind)
}

func (p *parser) power() (node, bool) {
	base, ok := p.primary()
	for ok {
		switch t := p.peek(); {
		case t.kind == raisedToken && !t.gap:
			p.take()
			base = binary{op: "^", x: base, y: number{exact: figure(t.text)}}
		case t.text == "^":
			p.take()
			var exponent node
			exponent, ok = p.negated(p.primary)
			base = raise(base, exponent)
		default:
			return base, true
		}
	}
	return base, ok
}

// raise is a power, or the exponential function where its base is e.
func raise(base, exponent node) node {
	if l, ok := base.(letter); ok && l.name == "e" {
		return call{name: "exp", args: []node{exponent}}
	}
	return binary{op: "^", x: base, y: exponent}
}

var lowered = strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "-")

func figure(text string) Value {
	x, _ := strconv.ParseFloat(lowered.Replace(text), 64)
	return Number(x, units.Dimension{})
}

// primary is one thing: a number, a letter, a bracket, a function of something.
func (p *parser) primary() (node, bool) {
	switch t := p.peek(); t.kind {
	case numberToken:
		return p.number()
	case nameToken:
		p.take()
		return letter{name: t.text, start: t.start, end: t.end}, true
	case openToken, barToken:
		return p.bracket()
	case rootToken:
		p.take()
		x, ok := p.primary()
		return call{name: "√", args: []node{x}}, ok
	case overToken:
		p.take()
		x, ok := p.over()
		return call{name: t.text, args: []node{x}}, ok
	case functionToken:
		return p.function()
	}
	return nil, false
}

// over is what a sum runs over: a product, up to the next bar or plus.
func (p *parser) over() (node, bool) {
	left, ok := p.group()
	for ok && p.peek().text == "·" {
		p.take()
		var right node
		right, ok = p.group()
		left = binary{op: "·", x: left, y: right}
	}
	return left, ok
}

// function is one of what stands in brackets behind it, or of the next group.
func (p *parser) function() (node, bool) {
	name := p.take().text
	if t := p.peek(); t.kind != openToken || t.gap {
		x, ok := p.group()
		return call{name: name, args: []node{x}}, ok
	}
	p.take()
	var args []node
	for {
		x, ok := p.sum()
		if !ok {
			return nil, false
		}
		args = append(args, x)
		switch p.take().text {
		case ")":
			return call{name: name, args: args}, true
		case ",":
		default:
			return nil, false
		}
	}
}

var closers = map[string]string{"(": ")", "[": "]", "|": "|"}

func (p *parser) bracket() (node, bool) {
	open := p.take().text
	x, ok := p.sum()
	if !ok || p.take().text != closers[open] {
		return nil, false
	}
	if open == "|" {
		return call{name: "|", args: []node{x}}, true
	}
	return x, true
}

// number is one with the unit behind it.
func (p *parser) number() (node, bool) {
	t := p.take()
	if r, size := utf8.DecodeRuneInString(t.text); vulgar[r] != 0 && size == len(t.text) {
		return number{exact: Number(vulgar[r], units.Dimension{})}, true
	}
	x, err := strconv.ParseFloat(t.text, 64)
	if err != nil {
		return nil, false
	}
	unit, end := p.unit(t.end)
	for p.at < len(p.tokens) && p.tokens[p.at].start < end {
		p.at++
	}
	return number{exact: Number(unit.ToSI(x), unit.Kind.Dim)}, true
}

// longestUnit bounds how far a unit may go, in bytes.
const longestUnit = 30

// unit is the longest that stands behind a number; no letter but the first name in it
// may be one that stands for something.
func (p *parser) unit(from int) (units.Unit, int) {
	text := p.text[from:min(len(p.text), from+longestUnit)]
	if rest, gap := strings.CutPrefix(text, " "); gap {
		text, from = rest, from+1
	} else if !strings.HasPrefix(text, "°") && !strings.HasPrefix(text, "%") {
		return units.Unit{}, from
	}
	if strings.HasPrefix(text, "°") && !strings.HasPrefix(text, "°C") {
		return units.MustParse("°"), from + len("°")
	}
	for end := len(text); end > 0; end-- {
		if end < len(text) && !utf8.RuneStart(text[end]) || !p.endsUnit(text, end) {
			continue
		}
		if u, err := units.Parse(text[:end]); err == nil {
			return u, from + end
		}
	}
	return units.Unit{}, from
}

func (p *parser) endsUnit(text string, end int) bool {
	if text[end-1] == ' ' || from(text) {
		return false
	}
	if next, _ := utf8.DecodeRuneInString(text[end:]); end < len(text) && isNameRune(next) {
		return false
	}
	names := 0
	for _, t := range scan(text[:end]) {
		if t.kind != nameToken {
			continue
		}
		if names++; names > 1 && slices.Contains(p.known, t.text) {
			return false
		}
	}
	return true
}

// from reports whether a text begins with what begins no unit.
func from(text string) bool { return strings.ContainsAny(text[:1], "()[]+-/^·,=") }
