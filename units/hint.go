package units

import (
	"maps"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// unknown says why a symbol is no unit, with the likeliest hint: a word or an
// ambiguous name that is listed, wrong capitals, two units run together, too
// many prefixes, or a slip of the pen.
func (p *parser) unknown(start, end int) *Error {
	symbol := p.text[start:end]
	if p.brief {
		return p.fault(start, end, "", "")
	}
	err := p.fault(start, end, symbol+" is no unit", "")
	if w, ok := word(symbol); ok {
		err.Suggest, err.Hint = w.suggest, w.hint
		if w.summary != "" {
			err.Summary = symbol + " " + w.summary
		}
		return err
	}
	switch product, force := together(symbol); {
	case force:
		err.offer(product)
	case wrongCase(symbol, err):
	case doubled(symbol, err):
	case product != "":
		err.offer(product)
	case prefixed(symbol, err):
	default:
		if near := nearest(symbol); near != "" {
			err.Suggest, err.Hint = near, "did you mean "+near+"?"
		}
	}
	return err
}

func (e *Error) offer(unit string) { e.Suggest, e.Hint = unit, "write "+unit }

// A candidate is a symbol as it may be typed, and as it is written.
type candidate struct {
	typed, written, prefix string
	rare                   bool // a prefix that builders hardly use
}

// commonPrefixes of the list of prefixes are those that a builder uses daily.
const commonPrefixes = 8

// candidates lists every symbol with every prefix, the likeliest first.
var candidates = sync.OnceValue(func() []candidate {
	var list []candidate
	spellings := func(e *entry) []string { return append([]string{e.symbol}, e.aliases...) }
	for i := range entries() {
		e := &entries()[i]
		if e.hidden() {
			continue
		}
		for _, s := range spellings(e) {
			list = append(list, candidate{s, e.symbol, "", false})
		}
	}
	for j := range prefixes {
		x := &prefixes[j]
		for i := range entries() {
			e := &entries()[i]
			if !e.prefixes {
				continue
			}
			for _, s := range spellings(e) {
				list = append(list, candidate{x.symbol + s, x.symbol + e.symbol, x.name, j >= commonPrefixes})
			}
		}
	}
	return list
})

// folded finds candidates by their typed form in small letters.
var folded = sync.OnceValue(func() map[string][]candidate {
	m := make(map[string][]candidate)
	for _, c := range candidates() {
		low := strings.ToLower(c.typed)
		m[low] = append(m[low], c)
		if rest, micro := strings.CutPrefix(low, "µ"); micro {
			m["u"+rest] = append(m["u"+rest], c)
		}
	}
	return m
})

// wrongCase mends Kohm, RPM and hz.
func wrongCase(symbol string, err *Error) bool {
	const most = 3
	var list []string
	found := folded()[strings.ToLower(symbol)]
	for _, c := range found {
		if c.rare && !found[0].rare {
			continue
		}
		text := c.written
		if c.prefix != "" {
			text += " (" + c.prefix + ")"
		}
		if len(list) < most {
			list = append(list, text)
		}
		if err.Suggest == "" {
			err.Suggest = c.written
		}
	}
	if len(list) == 1 {
		list[0] = err.Suggest
	}
	err.Hint = "capitals matter: write " + either(list)
	if list == nil {
		err.Hint = ""
	}
	return list != nil
}

// doubled mends µµF: the same prefix twice.
func doubled(symbol string, err *Error) bool {
	return cutPrefix(symbol, func(p *prefix, rest string) bool {
		again := strings.HasPrefix(rest, p.symbol) || p.symbol == "µ" && strings.HasPrefix(rest, "u")
		if e, _ := lookup(rest); e == nil || !again {
			return false
		}
		err.Hint = "a unit takes one prefix"
		return true
	})
}

// prefixed mends kft: a unit that takes no prefix, or has one already.
func prefixed(symbol string, err *Error) bool {
	return cutPrefix(symbol, func(p *prefix, rest string) bool {
		e, x := lookup(rest)
		switch {
		case e == nil:
			return false
		case x != nil:
			err.Hint = "a unit takes one prefix"
		default:
			err.Hint = rest + " takes no prefix"
		}
		return true
	})
}

// together mends Nm and VA: two units without a sign between them. Force says
// that the first of them is one, as in a torque.
func together(symbol string) (product string, force bool) {
	for i := range symbol {
		if i == 0 {
			continue
		}
		a, x := lookup(symbol[:i])
		b, y := lookup(symbol[i:])
		if a == nil || b == nil || a.angle || b.angle || a.coin || b.coin {
			continue
		}
		one := exponent{1, 1}
		text := write([]term{{unit: a, prefix: x, power: one}, {unit: b, prefix: y, power: one}})
		if force = a.dim == dim(1, 1, -2, 0); force || product == "" {
			product = text
		}
		if force {
			break
		}
	}
	return product, force
}

// nearest is the symbol least far from what was typed, or the symbol of the
// word least far from it; "" if none is near.
func nearest(symbol string) string {
	const shortest, longest = 3, 12
	n := utf8.RuneCountInString(symbol)
	if n < shortest || n > longest {
		return ""
	}
	best, least := "", n/3+1
	try := func(typed, written string) {
		if d := distance(symbol, typed); d < least && utf8.RuneCountInString(typed) > d+1 {
			best, least = written, d
		}
	}
	for _, c := range candidates() {
		if !c.rare {
			try(c.typed, c.written)
		}
	}
	words := names()
	for _, w := range slices.Sorted(maps.Keys(words)) {
		if len(w) > shortest {
			try(w, words[w])
		}
	}
	return best
}

// distance counts the letters to put in, take out or change (Levenshtein).
func distance(a, b string) int {
	from, to := []rune(a), []rune(b)
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, x := range from {
		diagonal := row[0]
		row[0] = i + 1
		for j, y := range to {
			change := diagonal
			if x != y {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, diagonal+1)
		}
	}
	return row[len(to)]
}
