package markdown

import "bytes"

// A line is one line of a file: its text is source[start:text], its end eol.
type line struct {
	start, text, next int
	eol               string // "\n", "\r\n", or "" at the end of the file
}

// lineAt is the line that holds an offset. A lone carriage return ends no line,
// but one before the end of the file belongs to the line's end like any other,
// so that what is put behind the text never makes it half of a pair.
func lineAt(source []byte, at int) line {
	l := line{start: bytes.LastIndexByte(source[:at], '\n') + 1}
	if i := bytes.IndexByte(source[at:], '\n'); i >= 0 {
		l.text, l.next = at+i, at+i+1
	} else {
		l.text, l.next = len(source), len(source)
	}
	if l.text > l.start && source[l.text-1] == '\r' {
		l.text--
	}
	if l.next > 0 && source[l.next-1] == '\n' {
		l.eol = string(source[l.text:l.next])
	}
	return l
}

// trimEOL takes a line's end off.
func trimEOL(text []byte) []byte {
	text = bytes.TrimSuffix(text, []byte("\n"))
	return bytes.TrimSuffix(text, []byte("\r"))
}
