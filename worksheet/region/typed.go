package region

import (
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"inkwing/units"
)

// Typed finds what somebody wrote into a region: the first line of old that no run
// writes, nor any formatter makes of what a run wrote; -1 for none. Old stands as
// in the file, with as many quote marks before every line as its containers put
// there; new is what the region will say.
//
// A region that is out of date holds other numbers and other sentences than the
// new one, so that lines are known by their shape: the tables by their headings
// and cells, the paragraphs by how they begin. What is still true is known word
// for word. A region in which a merge left its marks is written anew whatever it
// holds. The limit: a word put into a sentence that is out of date is not found.
//
// Heads are further words of which the headings of a table may be made, where the block
// names its columns itself.
func Typed(old []string, quotes int, new []string, heads ...string) int {
	t := typed{heads: heads, fresh: map[string]bool{}, shown: map[string]string{}, wrapped: longest(old, quotes)}
	for _, said := range meaning(new, 0) {
		t.fresh[said] = true
	}
	for _, v := range Values(new, 0) {
		if _, known := t.shown["`"+v.Name+"`"]; !known && !v.Limit {
			t.shown["`"+v.Name+"`"] = v.Shown
		}
	}
	for _, line := range old {
		if text, _ := unquote(line, quotes); isConflict(text) {
			return -1
		}
	}
	for i, line := range old {
		text, inQuote := unquote(line, quotes)
		if !t.line(i, text, inQuote) {
			return t.at
		}
	}
	if !t.ended() {
		return t.at
	}
	return -1
}

// typed reads a region line by line.
type typed struct {
	fresh   map[string]bool   // what the region will say, as [meaning] has it
	shown   map[string]string // its values, by their names as code
	heads   []string          // words of which the headings of a table may be made
	wrapped int               // columns of the longest line of prose: a formatter breaks no line before

	at     int    // the line in question
	open   string // the paragraph so far; empty for none
	first  int    // its first line
	last   string // its last line
	quoted bool
	head   []string // of the table; nil for none
	rows   int      // lines of it so far
}

func (t *typed) line(i int, text string, inQuote bool) bool {
	isRow := strings.HasPrefix(text, "|")
	if !isRow {
		t.head = nil
	}
	if text == "" || isRow || inQuote != t.quoted {
		if !t.ended() {
			return false
		}
		t.open = ""
	}
	t.quoted = inQuote
	switch {
	case text == "":
		return true
	case isRow:
		t.at = i
		return t.row(text)
	case t.open == "":
		t.open, t.first, t.last = text, i, text
		return true
	}
	t.at = i
	return t.goesOn(text)
}

// ended reports whether the paragraph that ends here is one of a run.
func (t *typed) ended() bool {
	t.at = t.first
	return t.open == "" || t.said(t.open) || t.begins(t.open)
}

// said reports whether the region will say a paragraph as it stands.
func (t *typed) said(text string) bool {
	mark := ""
	if t.quoted {
		mark = "> "
	}
	return t.fresh[mark+unescape(text)]
}

// goesOn reports whether a line goes on with the paragraph as a formatter would
// have broken it: not behind one that the region says whole, and not where the
// next word had room, since a sentence may begin a new line anywhere.
func (t *typed) goesOn(text string) bool {
	word, _, _ := strings.Cut(text, " ")
	hadRoom := utf8.RuneCountInString(t.last)+1+utf8.RuneCountInString(word) <= t.wrapped
	sentence := strings.ContainsAny(t.last[len(t.last)-1:], ".!?]")
	if t.said(t.open) && !t.saysOn(text) || hadRoom && !sentence {
		return false
	}
	t.open += " " + text
	t.last = text
	return true
}

// saysOn reports whether the region will say the paragraph with this line too.
func (t *typed) saysOn(text string) bool {
	longer := unescape(t.open + " " + text)
	for said := range t.fresh {
		if strings.HasPrefix(strings.TrimPrefix(said, "> "), longer) {
			return true
		}
	}
	return false
}

// longest is how wide the prose of a region is set, tables and what cannot be
// broken left out.
func longest(lines []string, quotes int) (n int) {
	for _, line := range lines {
		if text, _ := unquote(line, quotes); !strings.HasPrefix(text, "|") && strings.Contains(text, " ") {
			n = max(n, utf8.RuneCountInString(text))
		}
	}
	return n
}

// row reports whether a line of a table is one of a run.
func (t *typed) row(text string) bool {
	cells := cellsOf(text)
	t.rows++
	switch {
	case t.head == nil:
		t.head, t.rows = cells, 0
		return isHead(cells) || !slices.ContainsFunc(cells, func(c string) bool { return !slices.Contains(t.heads, c) })
	case t.rows == 1:
		return isRule(cells)
	case t.fresh[row(text)]:
		return true
	case len(cells) > len(t.head):
		return false
	}
	return (t.head[0] != quantityHead && t.head[0] != limitHead) || t.named(cells)
}

// named reports whether a row of the builder's own quantities or limits is one of a
// run: what it is about stands as code, and what was a number is still one, without
// a word beside it.
func (t *typed) named(cells []string) bool {
	if len(cells) < 2 || !strings.ContainsAny(cells[0], "`\\") {
		return false
	}
	shown, known := t.shown[cells[0]]
	if !known || t.head[0] != quantityHead {
		return true
	}
	old := unwritten(cells[1])
	_, _, isNumber := units.ParseShown(shown)
	_, _, wasNumber := units.ParseShown(old)
	return !isNumber || wasNumber || !strings.ContainsAny(old[:min(1, len(old))], "+-0123456789(")
}

// isHead reports whether a table is one of a run by its headings: names with their
// units, code, or words of its own.
func isHead(cells []string) bool {
	return slices.ContainsFunc(cells, func(c string) bool {
		return strings.ContainsAny(c, "`[") || slices.Contains(heads, c)
	})
}

// heads are headings of tables, now or formerly.
var heads = []string{quantityHead, limitHead, "Input", "Measured", "Adjusted", "Tuned", "Sensitivity", "Contribution", "Headroom", keptHead, "Verdict"}

func isRule(cells []string) bool {
	return !slices.ContainsFunc(cells, func(c string) bool { return strings.Trim(c, ":-") != "" })
}

// isConflict reports whether a line is a mark that a merge leaves.
func isConflict(text string) bool {
	return strings.HasPrefix(text, "<<<<<<<") || strings.HasPrefix(text, ">>>>>>>") || strings.HasPrefix(text, "|||||||") || text == "======="
}

// begins reports whether a paragraph begins as one of a run does.
func (t *typed) begins(text string) bool {
	text = unescape(text)
	return t.quoted && inCallout().MatchString(text) || outside().MatchString(text)
}

// How paragraphs of a region begin, now or formerly. A new text that a region can
// hold goes in here, else the next run takes it for a builder's own.
var (
	inCallout = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile("^(?:\\[!(?:NOTE|TIP|IMPORTANT|WARNING|CAUTION)\\]|[*`\\pL][^:]{0,60}:|`[^`]+`(?:, also `[^:]*)?: )")
	})
	outside = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile("^(?:" + strings.Join(openings, "|") + ")")
	})
	openings = []string{
		"<!-- (?:cautions|warnings|notes|not worked) -->$", "In short: ", "Makers' sheets, local rules",
		`Limit kept(?:\.$|, headroom )`, `[0-9]+ (?:other )?limits? kept(?:\.$|, (?:least )?headroom )`,
		`!\[`, `Chart .*: `, `\*\*[^*:]{1,30}:\*\*`,
		"Table `", "Uncertainty budget of ", "What `.* finds",
		`Rough intervals? \(`, `(?:Note: )?(?:The interval of|Intervals|The draws|There is nothing to draw)`,
		"d is the difference in standard uncertainties", "Together u = ", "To first order together ", "Without effect ", "Nothing uncertain bears on ", "To first order nothing ",
		"Intervals are ", "Each value is ", "The cells are ", "`.* do(?:es)? not depend on ", "`.*` is given, so `",
		"(?:Least|Most) ", "Holds ", "Breaks ",
		"Not shown: [0-9]+ rows? more", "Left out: [0-9]+ rows? of", `No row is left\.`, `No [a-z]+ of that kind was found\.$`, "`[^`]+` is left out: ", `The last row is the total\.`,
	}
)
