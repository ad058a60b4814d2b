package region

import (
	"fmt"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// chart is the picture of a chart, or what it waits for.
func chart(c report.Chart) string {
	if c.State != report.Evaluated {
		text := "Chart " + free(c.Title, inParagraph) + ": "
		return text + message.Ended(remark(c.State, c.Waits, ""))
	}
	return "![" + alt(c.Alt) + "](" + address(c.File) + ")"
}

// alt is a picture's text in words. Formatters print it without escapes, so it
// holds nothing that needs any.
func alt(text string) string {
	var out strings.Builder
	text = plainMarks.Replace(clean(text))
	for i, r := range text {
		if r == '_' && !(i > 0 && i+1 < len(text) && isAlnum(text[i-1]) && isAlnum(text[i+1])) {
			r = ' '
		}
		out.WriteRune(r)
	}
	text = strings.Join(strings.Fields(out.String()), " ")
	if text == "" {
		return "chart"
	}
	return text
}

// plainMarks puts plain characters for those that Markdown reads as marks.
var plainMarks = strings.NewReplacer(
	"[", "(", "]", ")", "`", "'", "*", "×", "<", "‹", ">", "›", `\`, "/", "|", "/", "&", "+", "~", "-", "$", "", "://", ": ",
)

// address is a relative path as a link's target: every byte that is not plain
// is escaped.
func address(path string) string {
	var out strings.Builder
	for i := range len(path) {
		if c := path[i]; isAlnum(c) || strings.IndexByte("-._/", c) >= 0 {
			out.WriteByte(c)
		} else {
			fmt.Fprintf(&out, "%%%02X", c)
		}
	}
	return out.String()
}
