package markdown

import (
	"bytes"
	"slices"
)

// maxNesting is how many lists and quotes may begin on one line. The tree is
// walked by recursion, and megabytes of ">" would exhaust the stack.
const maxNesting = 100

// tooDeep finds the first line that opens more containers than that, or -1.
func tooDeep(source []byte) int {
	for at := 0; at < len(source); {
		end := bytes.IndexByte(source[at:], '\n')
		if end < 0 {
			end = len(source) - at
		}
		if end > maxNesting && containers(source[at:at+end]) > maxNesting {
			return at
		}
		at += end + 1
	}
	return -1
}

// containers counts quote and list marks at the beginning of a line.
func containers(text []byte) (n int) {
	for i, c := range text {
		spaced := i+1 < len(text) && (text[i+1] == ' ' || text[i+1] == '\t')
		switch {
		case c == '>':
			n++
		case bytes.IndexByte([]byte("-*+.)"), c) >= 0:
			if !spaced {
				return n
			}
			n++
		case c != ' ' && c != '\t' && (c < '0' || c > '9'):
			return n
		}
	}
	return n
}

// Body is where the Markdown of the document begins, behind a byte order mark and
// front matter.
func (d *Document) Body() int { return bodyStart(d.Source) }

// bodyStart is where Markdown begins: behind a byte order mark, which would hide
// a fence on the first line, and behind front matter, which would be read as a
// heading.
func bodyStart(source []byte) int {
	start := 0
	if bytes.HasPrefix(source, []byte("\ufeff")) {
		start = len("\ufeff")
	}
	first := lineAt(source, start)
	mark := string(bytes.TrimRight(source[start:first.text], " \t"))
	if mark != "---" && mark != "+++" {
		return start
	}
	for at := first.next; at < len(source); {
		l := lineAt(source, at)
		text := string(bytes.TrimRight(source[at:l.text], " \t"))
		if text == mark || mark == "---" && text == "..." {
			return l.next
		}
		if bytes.HasPrefix(source[at:], []byte("```")) || bytes.HasPrefix(source[at:], []byte("~~~")) {
			return start // a rule, then a fence: no front matter
		}
		at = l.next
	}
	return start
}

// checkConflicts refuses a file in which a merge left its marks, in order and
// outside fences, unless all are in regions: those are written anew.
func (d *Document) checkConflicts(fences []*fence, skip int) {
	if !bytes.Contains(d.Source, []byte("<<<<<<< ")) {
		return
	}
	want := []string{"<<<<<<< ", "=======", ">>>>>>> "}
	var seen []int
	for at := 0; at < len(d.Source); {
		var end int
		if fences, end = skipFence(fences, at-skip); end > 0 {
			at = end + skip
			continue
		}
		l := lineAt(d.Source, at)
		if bytes.HasPrefix(d.Source[at:l.text], []byte(want[len(seen)])) {
			seen = append(seen, at)
		}
		if len(seen) == len(want) {
			if slices.ContainsFunc(seen, func(at int) bool { return !d.InRegion(at) }) {
				first := lineAt(d.Source, seen[0])
				d.refuse(first.start, first.text, "a merge left a conflict here",
					"keep one side and delete the lines of <<<<<<<, ======= and >>>>>>>")
				return
			}
			seen = nil
		}
		at = l.next
	}
}

// skipFence drops the fences that lie before a line, and says where the code
// that holds the line ends; 0 if it is in no fence.
func skipFence(fences []*fence, at int) (rest []*fence, end int) {
	for len(fences) > 0 {
		if lines := fences[0].node.Lines(); lines.Len() > 0 {
			first, last := lines.At(0), lines.At(lines.Len()-1)
			if at < first.Start && at <= fences[0].start {
				break
			}
			if at < last.Stop && at > fences[0].start {
				return fences, last.Stop
			}
			if at < last.Stop {
				break
			}
		}
		fences = fences[1:]
	}
	return fences, 0
}
