package units

import (
	"strings"
	"unicode/utf8"
)

func (p *parser) peek(s string) bool { return strings.HasPrefix(p.text[p.pos:], s) }

func (p *parser) eat(s string) bool {
	if !p.peek(s) {
		return false
	}
	p.pos += len(s)
	return true
}

func (p *parser) blanks() {
	for p.pos < len(p.text) && (p.text[p.pos] == ' ' || p.text[p.pos] == '\t') {
		p.pos++
	}
}

func (p *parser) atDot() bool {
	r, _ := utf8.DecodeRuneInString(p.text[p.pos:])
	return isDot(r)
}

func (p *parser) dot() bool {
	r, n := utf8.DecodeRuneInString(p.text[p.pos:])
	if !isDot(r) {
		return false
	}
	p.pos += n
	return true
}
