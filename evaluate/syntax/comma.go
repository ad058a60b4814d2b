package syntax

import (
	"regexp"
	"strings"
	"sync"

	"inkwing/evaluate/message"
)

// Numbers as they are written elsewhere: with a comma that may be either, with commas or
// points between thousands, and with a decimal comma.
var (
	eitherComma = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[1-9][0-9]{0,2},[0-9]{3}$`) })
	commasApart = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9]{1,3}(,[0-9]{3})+(\.[0-9]+)?$`) })
	pointsApart = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9]{1,3}(\.[0-9]{3})+(,[0-9]+)?$`) })
)

// longestForeign bounds them, in bytes.
const longestForeign = 40

// Foreign is what mends a number that is written as it is elsewhere, with commas or more
// than one point; false where it may be two numbers, or is none.
func Foreign(number string) (hint string, ok bool) {
	if len(number) > longestForeign {
		return "", false
	}
	commas, points := strings.Count(number, ","), strings.Count(number, ".")
	thousands := strings.ReplaceAll(number, ",", "")
	switch {
	case eitherComma().MatchString(number):
		return "write " + message.Quote(thousands) + " where the comma parts thousands, " + message.Quote(strings.Replace(number, ",", ".", 1)) + " where it is a decimal one", true
	case commas+points > 1 && commas > 0 && commasApart().MatchString(number):
		return "write " + message.Quote(thousands), true
	case commas+points > 1 && pointsApart().MatchString(number):
		return "write " + message.Quote(strings.Replace(strings.ReplaceAll(number, ".", ""), ",", ".", 1)), true
	}
	return "", false
}
