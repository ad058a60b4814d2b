package formula

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Name is a quantity's name: V_full is a V with "full" below it, eta an η, a
// longer word stays words.
func Name(name string) string {
	base, marks := taken(name)
	return marked(base, marks)
}

// Path is a name with its fields: the last is what it is, the one before whose.
func Path(path string) string {
	owner, name := "", path
	if dot := strings.LastIndexByte(path, '.'); dot >= 0 {
		owner, name = path[:dot], path[dot+1:]
		owner = strings.ReplaceAll(owner[strings.LastIndexByte(owner, '.')+1:], "_", " ")
	}
	base, marks := taken(name)
	switch {
	case marks == "":
		marks = owner
	case owner != "":
		marks += ", " + owner
	}
	return marked(base, marks)
}

// NameWords is a name as a text has it, for where no formula can stand.
func NameWords(name string) string {
	return strings.NewReplacer("_", " ", ".", " ").Replace(name)
}

// marked is a symbol with what is written below it.
func marked(base, marks string) string {
	if marks == "" {
		return base
	}
	return lowered(base, below(marks))
}

// below is what stands below a symbol: roman, since it only describes.
func below(marks string) string {
	if utf8.RuneCountInString(marks) == 1 {
		if unicode.IsDigit(rune(marks[0])) {
			return number(marks)
		}
		return upright(marks)
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
		return identifier(strings.ReplaceAll(name, "_", "\u00a0")), ""
	case mark == "":
		return identifier(letter), rest
	case rest == "":
		return identifier(letter), mark
	}
	return identifier(letter), mark + "," + rest
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
