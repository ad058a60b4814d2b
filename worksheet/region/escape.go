package region

import (
	"regexp"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// where says what a text is written into: a bar divides cells, in code too.
type where bool

const (
	inCell      where = true
	inParagraph where = false
)

// clean makes one line of a text: blanks run together, controls and marks that
// turn the direction of reading or cannot be seen are dropped. Symbols that
// formatters measure differently from version to version become plain ones.
func clean(text string) string {
	if isClean(text) {
		return text
	}
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r), r == unicode.ReplacementChar, isEmoji(r):
			return -1
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// isClean says of plain ASCII that there is nothing to clean.
func isClean(text string) bool {
	last := byte(' ')
	for i := range len(text) {
		c := text[i]
		if c < ' ' || c > '~' || c == ' ' && last == ' ' {
			return false
		}
		last = c
	}
	return text == "" || last != ' '
}

// isEmoji is a rough bound of the symbols that count one column here and two
// there. None has a place in a technical table.
func isEmoji(r rune) bool {
	switch {
	case r == 0xa9, r == 0xae, r == 0x203c, r == 0x2049, r == 0x2122, r == 0x2139, r == 0x3030, r == 0x303d, r == 0x3297, r == 0x3299:
		return true
	case 0x2194 <= r && r <= 0x21aa, 0x231a <= r && r <= 0x23ff, r == 0x24c2, 0x25aa <= r && r <= 0x25fe,
		0x2600 <= r && r <= 0x27bf && r != '✓' && r != '✗', 0x2934 <= r && r <= 0x2935, 0x2b05 <= r && r <= 0x2b55, r >= 0x1f000 && r < 0x20000:
		return true
	}
	return false
}

// link finds an address. Few texts hold one, and most runs need no pattern.
var link = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`https?://[^\s<>()\[\]"'` + "`" + `|\\]*[^\s<>()\[\]"'` + "`" + `|\\.,;:]`)
})

// free writes a text so that every reader shows just that text, and formatters
// leave it alone. What stands between ticks, and names with an underscore, go
// into code, which old formatters need; addresses go between angles.
func free(text string, in where) string {
	text = clean(text)
	parts := strings.Split(text, "`")
	if !paired(parts) {
		return linked(text, !strings.Contains(text, "`"))
	}
	var out strings.Builder
	for i, part := range parts {
		if i%2 == 1 {
			out.WriteString(code(part, in))
			continue
		}
		// A name that touches a tick stays text: two ticks in a row are one mark.
		touches := i > 0 && isName(firstRune(part)) || i+1 < len(parts) && isName(lastRune(part))
		out.WriteString(linked(part, !touches))
	}
	return out.String()
}

// isName reports whether a rune may stand in a name.
func isName(r rune) bool {
	if r < utf8.RuneSelf {
		return r == '_' || isAlnum(byte(r))
	}
	return r != utf8.RuneError && unicode.In(r, unicode.L, unicode.M, unicode.N)
}

func firstRune(text string) rune { r, _ := utf8.DecodeRuneInString(text); return r }
func lastRune(text string) rune  { r, _ := utf8.DecodeLastRuneInString(text); return r }

// paired reports whether the parts between ticks, every second one, can be code.
func paired(parts []string) bool {
	for i := 1; i < len(parts); i += 2 {
		if i+1 == len(parts) || parts[i] == "" || strings.TrimSpace(parts[i]) != parts[i] || strings.Contains(parts[i], `\`) {
			return false
		}
		if parts[i+1] == "" && i+2 < len(parts) {
			return false // one span's tick would touch the next one's
		}
	}
	return true
}

// linked writes a text without ticks, or one whose ticks are escaped.
func linked(text string, code bool) string {
	if !strings.Contains(text, "http") {
		return words(text, code)
	}
	var out strings.Builder
	for at := 0; at < len(text); {
		loc := link().FindStringIndex(text[at:])
		if loc == nil {
			loc = []int{len(text) - at, len(text) - at}
		}
		out.WriteString(words(text[at:at+loc[0]], code))
		if loc[0] < loc[1] {
			out.WriteString("<" + text[at+loc[0]:at+loc[1]] + ">")
		}
		at += loc[1]
	}
	return out.String()
}

// words writes a text with its names: runs that may have dots inside, not at
// their ends. One with an underscore has the look of an identifier.
func words(text string, code bool) string {
	var out strings.Builder
	for text != "" {
		gap := strings.IndexFunc(text, isName)
		if gap < 0 {
			gap = len(text)
		}
		out.WriteString(escape(text[:gap]))
		text = text[gap:]
		size := nameSize(text)
		word := text[:size]
		text = text[size:]
		if code && strings.Contains(word, "_") && strings.ContainsFunc(word, unicode.IsLetter) {
			out.WriteString("`" + word + "`")
		} else {
			out.WriteString(escape(word))
		}
	}
	return out.String()
}

// nameSize is how many bytes of a text the name at its beginning takes.
func nameSize(text string) int {
	size := 0
	for i, r := range text {
		switch {
		case isName(r):
			size = i + utf8.RuneLen(r)
		case r != '.' || i == 0 || size != i:
			return size
		}
	}
	return size
}

// escape puts a backslash before what Markdown could read as a mark. An
// underscore between ASCII letters or digits is none, and old formatters take
// the backslash away again.
func escape(text string) string {
	if !strings.ContainsAny(text, "&\\`*_[]<>|~$") {
		return text
	}
	var out strings.Builder
	for i, r := range text {
		switch {
		case r == '_' && i > 0 && i+1 < len(text) && isAlnum(text[i-1]) && isAlnum(text[i+1]):
		case r == '&':
			out.WriteString("&amp;")
			continue
		case strings.ContainsRune("\\`*_[]<>|~$", r):
			out.WriteByte('\\')
		}
		out.WriteRune(r)
	}
	return out.String()
}

func isAlnum(c byte) bool {
	return '0' <= c && c <= '9' || 'A' <= c && c <= 'Z' || 'a' <= c && c <= 'z'
}

// code writes a name or a line as code, or as plain text if it holds a tick or a
// backslash, which formatters fence anew.
func code(text string, in where) string {
	text = clean(text)
	if text == "" {
		return ""
	}
	if strings.ContainsAny(text, "`\\") {
		return escape(text)
	}
	if in == inCell {
		text = strings.ReplaceAll(text, "|", `\|`)
	}
	return "`" + text + "`"
}
