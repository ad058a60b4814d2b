package formula

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A kind is what a token of a formula line is.
type kind uint8

const (
	otherToken kind = iota
	numberToken
	symbolToken // a letter with its marks
	wordToken
	functionToken
	raisedToken // what is written high: ², ⁻¹, ′
	openToken
	closeToken
	rootToken
	overToken         // Σ, Π, ∫
	differentialToken // the dt behind an integral
)

// A token is a piece of a formula line with the blank before it.
type token struct {
	kind      kind
	text, gap string
}

var functions = []string{"sin", "cos", "tan", "asin", "acos", "atan", "arcsin", "arccos", "arctan", "sinh", "cosh", "ln", "lg", "log", "logₑ", "log₁₀", "exp", "floor", "ceil", "round", "min", "max"}

// scan takes a formula line apart.
func scan(text string) (list []token) {
	bars := 0
	for len(text) > 0 {
		rest := strings.TrimLeft(text, " \n\t")
		gap := ""
		if len(rest) < len(text) {
			gap = " "
		}
		if rest == "" {
			break
		}
		t := next(rest)
		t.gap = gap
		text = rest[len(t.text):]
		if t.text == "|" {
			t.kind = openToken
			if bars++; bars%2 == 0 {
				t.kind = closeToken
			}
		}
		if t.kind == raisedToken {
			t.text = raisedBack.Replace(t.text)
		}
		list = append(list, t)
	}
	return list
}

// raisedRunes are written high.
const raisedRunes = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻ᵀ′"

// next is the first token of a text.
func next(text string) token {
	r, size := utf8.DecodeRuneInString(text)
	switch {
	case r >= '0' && r <= '9':
		return token{kind: numberToken, text: figures(text)}
	case strings.ContainsRune("½⅓⅔¼¾", r):
		return token{kind: numberToken, text: text[:size]}
	case strings.ContainsRune(raisedRunes, r):
		return token{kind: raisedToken, text: run(text, func(r rune) bool { return strings.ContainsRune(raisedRunes, r) })}
	case r == '(' || r == '[':
		return token{kind: openToken, text: text[:size]}
	case r == ')' || r == ']':
		return token{kind: closeToken, text: text[:size]}
	case r == '√':
		return token{kind: rootToken, text: text[:size]}
	case strings.ContainsRune("ΣΠ∫", r):
		return token{kind: overToken, text: text[:size]}
	case r == '°' && len(text) > size && (text[size] == 'C' || text[size] == 'F'):
		return token{kind: wordToken, text: text[:size+1]}
	case strings.HasPrefix(text, "a.c.") || strings.HasPrefix(text, "d.c."): // no quantities
		return token{text: text[:len("a.c.")]}
	case r == '…':
		return token{kind: symbolToken, text: text[:size]}
	case unicode.IsLetter(r):
		name := run(text, isNameRune)
		if rest := text[len(name):]; len(rest) > 1 && rest[0] == '-' && unicode.IsLetter(rune(rest[1])) {
			return token{kind: wordToken, text: name + "-" + run(rest[1:], isNameRune)} // m-th
		}
		return letters(name)
	}
	return token{text: text[:size]}
}

func run(text string, of func(rune) bool) string {
	end := strings.IndexFunc(text, func(r rune) bool { return !of(r) })
	if end < 0 {
		return text
	}
	return text[:end]
}

func isNameRune(r rune) bool {
	return (unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) || r == '_' || loweredLetters[r] != 0) && r != 'ᵀ' || r == '\''
}

// figures is a number, with its power of ten.
func figures(text string) string {
	n := len(run(text, func(r rune) bool { return r >= '0' && r <= '9' || r == '.' }))
	for n > 0 && text[n-1] == '.' {
		n--
	}
	if rest := text[n:]; len(rest) > 2 && rest[0] == 'e' && (rest[1] == '-' || rest[1] >= '0' && rest[1] <= '9') {
		n += 2 + len(run(rest[2:], func(r rune) bool { return r >= '0' && r <= '9' }))
	}
	return text[:n]
}

// small are the words of two letters that no quantity is called.
var small = []string{"the", "and", "less", "of", "at", "as", "is", "it", "in", "on", "by", "to", "no", "so", "if", "or", "do", "up", "an", "be", "its", "us", "we"}

// letters tells symbols, functions and words apart by their looks.
func letters(text string) token {
	trimmed := strings.TrimRight(text, "'")
	text = text[:max(len(trimmed), 1)]
	base, _ := subscripted(strings.ReplaceAll(text, "\u0304", ""))
	head, _, marked := strings.Cut(base, "_")
	stem := strings.TrimRight(head, "0123456789")
	n := utf8.RuneCountInString(stem)
	first, _ := utf8.DecodeRuneInString(text)
	switch {
	case slices.Contains(functions, text):
		return token{kind: functionToken, text: text}
	case isDifferential(text):
		return token{kind: differentialToken, text: text}
	case slices.Contains(small, text):
	case n <= 1, marked && n <= 2, n == 2 && (len(stem) != len(head) || !isEnglish(stem)),
		n == 3 && first == 'C' && isCoefficient(stem):
		return token{kind: symbolToken, text: text}
	}
	return token{kind: wordToken, text: text}
}

// isEnglish reports whether two letters are rather a word.
func isEnglish(two string) bool { return two != "Is" && slices.Contains(small, strings.ToLower(two)) }

var raisedBack = strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "−", "ᵀ", "T")
