package rules

import (
	"errors"
	"strconv"
	"strings"
	"unicode"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// A text is a piece of a page as runes, each with its byte offset in the file: a
// statement may stand on several lines, and in a quote.
type text struct {
	file  string
	runes []rune
	at    []int // one more than runes
}

// span is the place of the runes from one to another.
func (t text) span(from, to int) message.Span {
	from = min(max(from, 0), len(t.runes))
	return message.Span{File: t.file, Start: t.at[from], End: t.at[min(max(to, from), len(t.runes))]}
}

func (t text) cut(from, to int) text { return text{t.file, t.runes[from:to], t.at[from : to+1]} }

// trim is the text without blanks around it.
func (t text) trim() text {
	from, to := 0, len(t.runes)
	for from < to && unicode.IsSpace(t.runes[from]) {
		from++
	}
	for to > from && unicode.IsSpace(t.runes[to-1]) {
		to--
	}
	return t.cut(from, to)
}

func (t text) String() string { return strings.Join(strings.Fields(string(t.runes)), " ") }

// word reads the word that a text begins with.
func (t text) word() (word, rest text) {
	n := 0
	for n < len(t.runes) && isLetter(t.runes[n]) {
		n++
	}
	return t.cut(0, n), t.cut(n, len(t.runes)).trim()
}

func isLetter(r rune) bool { return unicode.IsLetter(r) || r == '_' || unicode.IsDigit(r) }

// A literal is a number with the unit behind it, at its rune in the folded text.
type literal struct {
	si   float64
	unit units.Unit // zero for none
	text string     // as written
}

// A folder takes the units out of a predicate: expr reads plain numbers, and
// learns what they stand for by their places.
type folder struct {
	text
	pos      int
	out      []rune
	from     []int // the rune of text that each of out came from
	literals map[int]literal
	problem  *message.Diagnostic
}

func fold(t text) *folder {
	f := &folder{text: t, literals: map[int]literal{}}
	for f.pos < len(t.runes) && f.problem == nil {
		f.next()
	}
	f.from = append(f.from, len(t.runes))
	return f
}

// copy takes n runes as they are.
func (f *folder) copy(n int) {
	for range n {
		f.from = append(f.from, f.pos)
		f.out = append(f.out, f.runes[f.pos])
		f.pos++
	}
}

// signs are what others write for what expr knows by two characters.
var signs = map[rune]string{'≤': "<=", '≥': ">=", '≠': "!="}

func (f *folder) next() {
	r := f.runes[f.pos]
	switch {
	case r == '"':
		f.quoted()
	case isDigit(r), r == '-' && f.isDigitAt(f.pos+1) && !f.behindOperand():
		f.number()
	case isLetter(r):
		n := f.pos
		for n < len(f.runes) && isLetter(f.runes[n]) {
			n++
		}
		f.copy(n - f.pos)
	case r == '\'' || r == '`':
		f.fail(f.pos, f.pos+1, "a text stands in double quotes", `write "…"`)
	case r == '/' && f.pos+1 < len(f.runes) && strings.ContainsRune("/*", f.runes[f.pos+1]):
		f.fail(f.pos, f.pos+2, "a remark begins with #", "")
	case signs[r] != "":
		for _, sign := range signs[r] {
			f.from, f.out = append(f.from, f.pos), append(f.out, sign)
		}
		f.pos++
	default:
		f.copy(1)
	}
}

func (f *folder) fail(from, to int, summary, hint string) {
	f.problem = &message.Diagnostic{Span: f.span(from, to), Summary: summary, Hint: hint}
	f.pos = len(f.runes)
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

func (f *folder) isDigitAt(i int) bool { return i < len(f.runes) && isDigit(f.runes[i]) }

// behindOperand reports whether a minus here takes something from what is before.
func (f *folder) behindOperand() bool {
	before := strings.TrimRightFunc(string(f.out), unicode.IsSpace)
	for _, word := range []string{"and", "or", "not", "in"} {
		if rest, ok := strings.CutSuffix(before, word); ok && (rest == "" || !isLetter(lastRune(rest))) {
			return false
		}
	}
	last := lastRune(before)
	return isLetter(last) || strings.ContainsRune(`)]"`, last)
}

func lastRune(s string) rune {
	r := []rune(s)
	if len(r) == 0 {
		return ' '
	}
	return r[len(r)-1]
}

func (f *folder) quoted() {
	end := closingQuote(f.runes, f.pos)
	if end < 0 {
		f.fail(f.pos, len(f.runes), "this text has no closing quote", `close it with "`)
		return
	}
	f.copy(end + 1 - f.pos)
}

// closingQuote is where the text that opens at a place is closed, -1 for nowhere.
func closingQuote(runes []rune, open int) int {
	for i := open + 1; i < len(runes) && runes[i] != '\n'; i++ {
		switch runes[i] {
		case '\\':
			i++
		case '"':
			return i
		}
	}
	return -1
}

// number reads a number and its unit, and leaves the number.
func (f *folder) number() {
	start := f.pos
	if f.runes[f.pos] == '-' {
		f.pos++
	}
	digits := f.digits()
	at, end := len(f.out), f.pos
	number := string(f.runes[start:end])
	x, err := strconv.ParseFloat(strings.ReplaceAll(number, "_", ""), 64)
	if err != nil {
		f.fail(start, end, "this number is too large", "")
		return
	}
	for i := range digits {
		f.from, f.out = append(f.from, start+i), append(f.out, digits[i])
	}
	unit, ok := f.unit(start, end)
	if ok {
		f.literals[at] = literal{unit.ToSI(x), unit, string(f.runes[start:f.pos])}
	}
}

// digits reads 12, 0.5 and 1.2e-3, and gives them as expr reads them.
func (f *folder) digits() []rune {
	start := f.pos
	run := func() {
		for f.pos < len(f.runes) && (isDigit(f.runes[f.pos]) || f.runes[f.pos] == '_') {
			f.pos++
		}
	}
	run()
	if f.pos < len(f.runes) && f.runes[f.pos] == '.' && f.isDigitAt(f.pos+1) {
		f.pos++
		run()
	}
	if f.pos < len(f.runes) && (f.runes[f.pos] == 'e' || f.runes[f.pos] == 'E') {
		sign := 0
		if f.pos+1 < len(f.runes) && strings.ContainsRune("+-", f.runes[f.pos+1]) {
			sign = 1
		}
		if f.isDigitAt(f.pos + 1 + sign) {
			f.pos += 1 + sign
			run()
		}
	}
	return f.runes[start:f.pos]
}

// linking are the words that may stand behind a number and are no unit.
var linking = map[string]bool{"and": true, "or": true, "not": true, "matches": true, "contains": true, "startsWith": true, "endsWith": true}

// unit reads the unit behind a number.
func (f *folder) unit(start, end int) (units.Unit, bool) {
	for f.pos < len(f.runes) && (f.runes[f.pos] == ' ' || f.runes[f.pos] == '\u00a0' || f.runes[f.pos] == '\u202f') {
		f.pos++
	}
	from := f.pos
	run := unitRun(f.runes[from:])
	if run == "" || linking[run] || run == "in" && f.isListBehind(from+2) {
		f.pos = end
		return units.Unit{}, true
	}
	length := len([]rune(run))
	if from == end && run != "°" && run != "%" {
		f.fail(start, end+length, "a space is missing between a number and its unit",
			"write `"+string(f.runes[start:end])+" "+run+"`")
		return units.Unit{}, false
	}
	u, err := units.Parse(run)
	if err != nil {
		f.noUnit(from, run, err)
		return units.Unit{}, false
	}
	f.pos = from + length
	return u, true
}

// isListBehind reports whether a list follows, so that "in" before it is no inch.
func (f *folder) isListBehind(at int) bool {
	rest := strings.TrimLeftFunc(string(f.runes[min(at, len(f.runes)):]), unicode.IsSpace)
	return strings.HasPrefix(rest, "[")
}

func (f *folder) noUnit(from int, run string, err error) {
	f.fail(from, from+len([]rune(run)), "`"+run+"` is no unit", "put a unit behind the number, or nothing")
	var wrong *units.Error
	if errors.As(err, &wrong) && wrong.Hint != "" {
		f.problem.Hint = wrong.Hint
	}
}

// unitRun is the longest run of what units are written with.
func unitRun(runes []rune) string {
	depth, n := 0, 0
	var before rune
loop:
	for _, r := range runes {
		switch {
		case unicode.IsLetter(r), unicode.IsMark(r), strings.ContainsRune("°%‰'′″", r):
		case n > 0 && (strings.ContainsRune("·*/^⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", r) || isDigit(r)):
		case (r == '-' || r == '+') && (before == '^' || before == '('):
		case r == '(' && n > 0 && strings.ContainsRune("·*/^(", before):
			depth++
		case r == ')' && depth > 0:
			depth--
		default:
			break loop
		}
		before = r
		n++
	}
	return string(runes[:n])
}
