package units

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Bounds of what Parse reads.
const (
	MaxLength  = 200 // bytes of a unit
	MaxNesting = 8   // brackets within brackets
)

var exponentsGoTo = "exponents go to " + strconv.Itoa(MaxPower)

// A term is one symbol with its power, above or below the solidus.
type term struct {
	unit   *entry
	prefix *prefix
	power  exponent
	below  bool
}

// A parser reads
//
//	unit    = [ product | "1" ] [ "/" factor ] .
//	product = factor { dot factor } .
//	factor  = ( symbol | "(" unit ")" ) [ power ] .
//
// Behind a solidus stands one factor only: what a/b/c and a/b·c mean is not
// the same to every reader, and the SI Brochure asks for brackets there.
type parser struct {
	text  string
	pos   int
	depth int
	terms []term
	buf   [8]term // where terms begin, sparing an allocation
	brief bool    // nobody asks why it is no unit
}

// Parse reads a unit: "m/s^2", "m/s²", "N·m", "N*m", "W/(m^2·K)", "min^-1",
// "m^(1/2)", "1" for the pure number. Its error is an *Error.
func Parse(text string) (Unit, error) {
	if e, p := lookup(text); e != nil {
		return single(text, e, p)
	}
	p := parser{text: text}
	p.terms = p.buf[:0]
	if err := p.whole(); err != nil {
		return Unit{}, err
	}
	return p.compose()
}

// Is reports whether a text is a unit. Why one is none is for [Parse] to say, which looks
// through all units for that.
func Is(text string) bool {
	if e, _ := lookup(text); e != nil {
		return true
	}
	p := parser{text: text, brief: true}
	p.terms = p.buf[:0]
	if p.whole() != nil {
		return false
	}
	_, err := p.compose()
	return err == nil
}

// MustParse is Parse for texts that are known to be units; it panics on others.
func MustParse(text string) Unit {
	u, err := Parse(text)
	if err != nil {
		panic("units: " + err.Error())
	}
	return u
}

// lookup finds a symbol, with or without a prefix.
func lookup(symbol string) (*entry, *prefix) {
	table := index()
	if e := table[symbol]; e != nil {
		return e, nil
	}
	var unit *entry
	var found *prefix
	cutPrefix(symbol, func(p *prefix, rest string) bool {
		if e := table[rest]; e != nil && e.prefixes {
			unit, found = e, p
			return true
		}
		return false
	})
	return unit, found
}

// single is the unit of one symbol, without the labour of a product.
func single(text string, e *entry, p *prefix) (Unit, error) {
	terms := [1]term{{unit: e, prefix: p, power: exponent{1, 1}}}
	u := Unit{Kind: Kind{Dim: e.dim, Mark: mark(e.dim, terms[:])}, shift: e.shift}
	u.Kind.Point = e.shift != 0
	num, den := p.ten()
	u.num, u.den = reduce(e.num*num, e.den*den)
	if u.text = text; !terms[0].spelled(text) {
		u.text = terms[0].symbol()
	}
	u.pay(e)
	return u, nil
}

func (p *parser) whole() *Error {
	if len(p.text) > MaxLength {
		return p.fault(0, len(p.text), "this unit is too long", "a unit has at most "+strconv.Itoa(MaxLength)+" bytes")
	}
	if strings.Trim(p.text, " \t") == "" {
		return p.fault(0, len(p.text), "a unit is missing here", "write 1 for a pure number")
	}
	if !utf8.ValidString(p.text) {
		return p.fault(0, len(p.text), "this unit is not UTF-8", "")
	}
	p.blanks()
	if err := p.unit(); err != nil {
		return err
	}
	p.blanks()
	if p.pos == len(p.text) {
		return nil
	}
	return p.rest()
}

// unit reads a quotient up to its end or its closing bracket.
func (p *parser) unit() *Error {
	one := p.one()
	if !one {
		if err := p.factor(false); err != nil {
			return err
		}
		for p.dot() {
			if err := p.factor(false); err != nil {
				return err
			}
		}
	}
	if !p.eat("/") {
		return nil
	}
	solidus := p.pos - 1
	if err := p.factor(true); err != nil {
		return err
	}
	if p.peek("/") || p.atDot() {
		return p.ambiguous(solidus)
	}
	return nil
}

// one eats the pure number 1, which stands alone or before a solidus.
func (p *parser) one() bool {
	rest := p.text[p.pos:]
	if rest == "" || rest[0] != '1' {
		return false
	}
	if after := rest[1:]; after == "" || strings.IndexByte("/) \t", after[0]) >= 0 {
		p.pos++
		return true
	}
	return false
}

// factor reads a symbol or a bracket and its power.
func (p *parser) factor(below bool) *Error {
	first, start := len(p.terms), p.pos
	var err *Error
	if p.peek("(") {
		err = p.bracket()
	} else {
		err = p.symbol()
	}
	if err != nil {
		return err
	}
	power, err := p.power(start)
	if err != nil {
		return err
	}
	for i := first; i < len(p.terms); i++ {
		t := &p.terms[i]
		t.below = t.below != below
		raised, ok := fraction(int(t.power.num)*int(power.num), int(t.power.den)*int(power.den))
		if !ok {
			return p.fault(start, p.pos, "the exponents of "+p.text[start:p.pos]+" are out of range", exponentsGoTo)
		}
		t.power = raised
	}
	return nil
}

func (p *parser) bracket() *Error {
	open := p.pos
	p.pos++
	if p.depth++; p.depth > MaxNesting {
		return p.fault(open, open+1, "brackets are nested too deeply here", strconv.Itoa(MaxNesting)+" levels are read")
	}
	p.blanks()
	if err := p.unit(); err != nil {
		return err
	}
	p.blanks()
	p.depth--
	if p.eat(")") {
		return nil
	}
	if p.pos == len(p.text) {
		return p.fault(open, open+1, "this bracket is not closed", "add )")
	}
	return p.rest()
}

func (p *parser) symbol() *Error {
	start := p.pos
	for p.pos < len(p.text) {
		r, n := utf8.DecodeRuneInString(p.text[p.pos:])
		if !inSymbol(r) {
			break
		}
		p.pos += n
	}
	if p.pos == start {
		return p.missing()
	}
	e, x := lookup(p.text[start:p.pos])
	if e == nil {
		return p.unknown(start, p.pos)
	}
	p.terms = append(p.terms, term{unit: e, prefix: x, power: exponent{1, 1}})
	return nil
}

// inSymbol holds for what a symbol is made of: everything that is not an
// operator, a digit or blank, so that a mistake is reported as a whole.
func inSymbol(r rune) bool {
	switch {
	case r < utf8.RuneSelf:
		return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || strings.ContainsRune("%'\"_$#&!?", r)
	}
	return !isDot(r) && superDigit(r) < 0 && r != '⁻' && r != '⁺' && r != '−'
}

func isDot(r rune) bool { return r == '·' || r == '⋅' || r == '*' || r == '∙' }
