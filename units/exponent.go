package units

import "unicode/utf8"

// power reads what may stand behind a factor: ^2, ^-1, ^0.5, ^(1/2), ², ⁻¹.
func (p *parser) power(start int) (exponent, *Error) {
	at := p.pos
	var power exponent
	ok, present := true, true
	switch {
	case p.eat("^"):
		power, ok = p.caret()
	case p.pos < len(p.text) && superscripted(p.text[p.pos:]):
		power, ok = p.superscripts()
	default:
		present = false
	}
	if !present {
		return exponent{1, 1}, p.bareDigits(start)
	}
	shown := p.text[at:p.pos]
	switch {
	case !ok && (shown == "^" || shown == "^(" || shown == "^-"):
		return power, p.fault(at, p.pos, "an exponent is missing behind "+shown, "write m^2, s^-1 or m^(1/2)")
	case !ok:
		return power, p.fault(at, p.pos, "the exponent "+shown+" cannot be read", "write a whole number such as ^-2, or a fraction such as ^(1/2), up to 100")
	case power.num == 0:
		return power, p.fault(at, p.pos, "the exponent "+shown+" is nothing", "leave the unit out")
	case p.peek("^") || p.pos < len(p.text) && superscripted(p.text[p.pos:]):
		_, n := utf8.DecodeRuneInString(p.text[p.pos:])
		return power, p.fault(at, p.pos+n, "one exponent follows another", "write the product of the two")
	}
	return power, nil
}

// bareDigits finds the slips m2 and min-1.
func (p *parser) bareDigits(start int) *Error {
	end := p.pos
	for end < len(p.text) && (isDigit(p.text[end]) || p.text[end] == '-' && end == p.pos) {
		end++
	}
	if end == p.pos {
		return nil
	}
	symbol, digits := p.text[start:p.pos], p.text[p.pos:end]
	err := p.fault(start, end, symbol+digits+" is no unit", "write an exponent as "+symbol+"^"+digits)
	if digits == "-" {
		err.Hint = "write a product with · or *, a quotient with /"
	} else if _, bad := Parse(symbol + "^" + digits); bad == nil {
		err.Suggest = symbol + "^" + digits
	}
	return err
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// caret reads an exponent behind its ^.
func (p *parser) caret() (exponent, bool) {
	if !p.eat("(") {
		n, scale, ok := p.signed()
		if !ok {
			return exponent{}, false
		}
		return fraction(n, scale)
	}
	n, scale, ok := p.signed()
	if !ok {
		return exponent{}, false
	}
	if p.eat("/") {
		under, tens, ok := p.signed()
		if !ok || under <= 0 {
			return exponent{}, false
		}
		n, scale = n*tens, scale*under
	}
	power, ok := fraction(n, scale)
	return power, p.eat(")") && ok
}

// signed reads a decimal number as a fraction, of at most 6 digits.
func (p *parser) signed() (n, scale int, ok bool) {
	sign := 1
	if p.eat("-") || p.eat("−") {
		sign = -1
	} else {
		p.eat("+")
	}
	const longest = 6
	scale = 1
	digits, dotted := 0, false
	for ; p.pos < len(p.text); p.pos++ {
		c := p.text[p.pos]
		switch {
		case isDigit(c) && digits < longest:
			digits++
			n = n*10 + int(c-'0')
			if dotted {
				scale *= 10
			}
			continue
		case c == '.' && !dotted && digits > 0:
			dotted = true
			continue
		case isDigit(c):
			return 0, 1, false
		}
		break
	}
	return sign * n, scale, digits > 0
}

// superscripts reads ⁻¹ or ².
func (p *parser) superscripts() (exponent, bool) {
	sign, n, digits := 1, 0, 0
	if p.eat("⁻") {
		sign = -1
	} else {
		p.eat("⁺")
	}
	for p.pos < len(p.text) {
		r, size := utf8.DecodeRuneInString(p.text[p.pos:])
		d := superDigit(r)
		if d < 0 {
			break
		}
		if digits++; digits <= 4 {
			n = n*10 + d
		}
		p.pos += size
	}
	power, ok := fraction(sign*n, 1)
	return power, ok && digits > 0 && digits <= 4
}

func superscripted(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return superDigit(r) >= 0 || r == '⁻' || r == '⁺'
}

// superDigit is the value of a superscript digit, or -1.
func superDigit(r rune) int {
	switch {
	case r == '¹':
		return 1
	case r == '²':
		return 2
	case r == '³':
		return 3
	case r == '⁰' || '⁴' <= r && r <= '⁹':
		return int(r - '⁰')
	}
	return -1
}
