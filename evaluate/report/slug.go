package report

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Slugs makes the names of chart files, no two alike.
type Slugs map[string]int // the next number behind each name

// maxSlug bounds a file's name.
const maxSlug = 60

// Next is a name for a title: small ASCII letters, digits and single dashes, so
// that no file system and no link reads anything else into it.
func (s Slugs) Next(title string) string {
	base := slug(title)
	name := base
	n := max(s[base], 2)
	for ; s[name] > 0; n++ {
		name = fmt.Sprintf("%s-%d", base, n)
	}
	s[base] = n
	s[name] = max(s[name], 2)
	return name
}

// folded are the letters that are more than one with a mark.
var folded = strings.NewReplacer("ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "đ", "d", "ł", "l")

func slug(title string) string {
	var out strings.Builder
	dash := false
	for _, r := range norm.NFD.String(folded.Replace(strings.ToLower(title))) {
		if unicode.Is(unicode.Mn, r) {
			continue // the dots of ü: its letter stays
		}
		if !('a' <= r && r <= 'z' || '0' <= r && r <= '9') {
			dash = out.Len() > 0
			continue
		}
		if dash {
			out.WriteByte('-')
		}
		dash = false
		out.WriteRune(r)
	}
	name := out.String()
	if len(name) > maxSlug {
		name = strings.TrimRight(name[:maxSlug], "-")
	}
	if name == "" || isDevice(name) {
		name = strings.TrimRight("chart-"+name, "-")
	}
	return name
}

// isDevice reports whether Windows takes a name for a device, whatever its ending.
func isDevice(name string) bool {
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(name) == 4 && '0' <= name[3] && name[3] <= '9' && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt"))
}
