package formula

import (
	"html"
	"regexp"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// Name is a quantity's name: V_full is a V with "full" below it, eta an η, a
// longer word stays words.
func Name(name string) string {
	base, marks := taken(name)
	return marked(base, marks)
}

// Path is a name with its fields: the last is what it is, the one before whose, or
// the key of the row: store.capacitance, cells["B50"].mass. False for what is none.
func Path(path string) (string, bool) {
	base, marks, ok := pathOf(path)
	return marked(base, marks), ok
}

// Label is a path as HTML, for where MathML is not read as text: headings of tables.
func Label(path string) (string, bool) {
	base, marks, ok := pathOf(path)
	label := html.EscapeString(base)
	if utf8.RuneCountInString(base) == 1 {
		label = "<i>" + label + "</i>"
	}
	if marks != "" {
		label += "<sub>" + html.EscapeString(marks) + "</sub>"
	}
	return label, ok
}

// pathOf is what a path is called, and the marks below it.
func pathOf(path string) (base, marks string, ok bool) {
	owner, name, ok := partsOf(path)
	if !ok {
		return "", "", false
	}
	base, marks = taken(name)
	return base, joined(marks, strings.ReplaceAll(owner, "_", " ")), true
}

// partsOf takes a path apart: whose it is, or the key of the row, and the name.
func partsOf(path string) (owner, name string, ok bool) {
	if strings.ContainsAny(path, `["`) {
		return keyedParts(path)
	}
	dot := strings.LastIndexByte(path, '.')
	if dot < 0 {
		return "", path, isName(path, "")
	}
	owner, name = path[:dot], path[dot+1:]
	return owner[strings.LastIndexByte(owner, '.')+1:], name, isName(owner, ".") && isName(name, "")
}

// isName reports whether a text is a name, in which some marks may stand behind the first
// sign.
func isName(text, marks string) bool {
	for i, r := range text {
		if r != '_' && !unicode.IsLetter(r) && (i == 0 || !unicode.IsNumber(r) && !strings.ContainsRune(marks, r)) {
			return false
		}
	}
	return text != ""
}

// keyedParts takes a path with the key of a row apart.
func keyedParts(path string) (owner, name string, ok bool) {
	parts := pathParts().FindStringSubmatch(path)
	if parts == nil {
		return "", "", false
	}
	if parts[2] != "" {
		return parts[2][strings.LastIndexByte(parts[2], '.')+1:], parts[3], true
	}
	return parts[1][strings.LastIndexByte(parts[1], '.')+1:], parts[3], true
}

// joined are marks with whose they are.
func joined(marks, owner string) string {
	if marks == "" || owner == "" {
		return marks + owner
	}
	return marks + ", " + owner
}

// pathParts takes a name apart: whose, the key of a row, what.
var pathParts = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:([\pL_][\pL\pN_.]*?)(?:\["([^"]*)"\])?\.)?([\pL_][\pL\pN_]*)$`)
})

// marked is a symbol with what is written below it.
func marked(base, marks string) string {
	if marks == "" {
		return identifier(base)
	}
	return lowered(identifier(base), below(marks))
}

// below is what stands below a symbol: roman, since it only describes.
func below(marks string) string {
	if utf8.RuneCountInString(marks) == 1 {
		if unicode.IsDigit(rune(marks[0])) {
			return number(marks)
		}
		return "<mtext>" + html.EscapeString(marks) + "</mtext>"
	}
	return words(marks)
}

// taken is a name taken apart: its symbol, and the marks below it.
func taken(name string) (base, marks string) {
	head, rest, _ := strings.Cut(name, "_")
	rest = strings.ReplaceAll(rest, "_", " ")
	letter, mark := symbol(head)
	switch {
	case letter == "":
		return strings.ReplaceAll(name, "_", "\u00a0"), ""
	case mark == "":
		return letter, rest
	case rest == "":
		return letter, mark
	}
	return letter, mark + "," + rest
}

// symbol is the letter that a word stands for and the mark that it carries: C and
// L of CL, C and D0 of CD0, η of eta. The letter is empty for a word that is none.
func symbol(word string) (letter, mark string) {
	stem := strings.TrimRight(word, "0123456789")
	digits := word[len(stem):]
	if greek, ok := greekNames[stem]; ok {
		return greek, digits
	}
	first, size := utf8.DecodeRuneInString(stem)
	switch n := utf8.RuneCountInString(stem); {
	case n == 0:
		return "", ""
	case n == 1:
		return stem, digits
	case stem == "Re" || !unicode.IsUpper(first):
	case n == 2 && (first == 'C' || unicode.IsLower(last(stem))), n == 3 && isCoefficient(stem):
		return string(first), stem[size:] + digits
	}
	return "", ""
}

func last(word string) rune {
	r, _ := utf8.DecodeLastRuneInString(word)
	return r
}

// isCoefficient reports whether a word is a C with two marks, such as CDi.
func isCoefficient(word string) bool { return word[0] == 'C' && word[1] >= 'A' && word[1] <= 'Z' }

// greekNames are the letters by the names that builders type.
var greekNames = map[string]string{
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "zeta": "ζ", "eta": "η", "theta": "θ",
	"kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν", "xi": "ξ", "pi": "π", "rho": "ρ", "sigma": "σ", "tau": "τ",
	"phi": "φ", "chi": "χ", "psi": "ψ", "omega": "ω",
	"Gamma": "Γ", "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Xi": "Ξ", "Pi": "Π", "Sigma": "Σ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
}
