package region

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"inkwing/evaluate/report"
)

// bounds is what a block says of its limits: all of them in full, or where an
// overview lists all of the page, those that are not simply kept, and how many are.
func bounds(b report.Block) (parts [][]string) {
	if b.Overview != nil || len(b.Limits) == 0 {
		return nil
	}
	open, kept := b.Limits, []report.Limit(nil)
	if b.Listed {
		open, kept = apartByVerdict(b.Limits)
	}
	if len(open) > 0 {
		parts = append(parts, limits(open))
	}
	if len(kept) > 0 {
		parts = append(parts, []string{keptInShort(kept, len(open) > 0)})
	}
	return parts
}

// apartByVerdict parts the limits that are kept, and no more to be said of, from
// the others.
func apartByVerdict(list []report.Limit) (open, kept []report.Limit) {
	for _, l := range list {
		if l.Verdict() == report.Kept {
			kept = append(kept, l)
		} else {
			open = append(open, l)
		}
	}
	return open, kept
}

// keptInShort says how many limits are kept, and how much headroom the nearest of
// them has.
func keptInShort(kept []report.Limit, others bool) string {
	n := len(kept)
	text, room := strconv.Itoa(n)+" limits kept", ", least headroom "
	switch {
	case others && n == 1:
		text, room = "1 other limit kept", ", headroom "
	case others:
		text = strconv.Itoa(n) + " other limits kept"
	case n == 1:
		text, room = "Limit kept", ", headroom "
	}
	near := slices.MinFunc(kept, func(a, b report.Limit) int { return cmp.Compare(a.Room(), b.Room()) })
	if near.Headroom == "" || near.Headroom == "—" {
		return text + "."
	}
	return text + room + free(near.Headroom, inParagraph) + "."
}

// The columns of limits that may be left out.
const (
	allowedAt = 2
	roomAt    = 3
	verdictAt = 4
)

// limits is the table of the builder's own bounds. What stands in each row already
// has no column: an allowed number that the limit itself says, and the verdict where
// all are kept, which then is in the head of the headroom.
func limits(list []report.Limit) []string {
	t := table{columns: []column{{limitHead, false}, {workedHead, true}, {"Allowed", true}, {"Headroom", true}, {"Verdict", false}}}
	kept := true
	for _, l := range list {
		allowed := ""
		if !saysAllowed(l) {
			allowed = shown(l.Allowed)
		}
		t.rows = append(t.rows, []string{limitOf(l), shown(l.Value), allowed, shown(l.Headroom), verdict(l)})
		kept = kept && l.Verdict() == report.Kept && shown(l.Headroom) != "—"
	}
	if kept {
		t.columns[roomAt].head = keptHead
		t.without(verdictAt)
	}
	if !slices.ContainsFunc(t.rows, func(row []string) bool { return row[allowedAt] != "" }) {
		t.without(allowedAt)
	}
	return t.lines()
}

// saysAllowed reports whether a limit is written with what it allows as it is shown:
// before or behind a comparison, or on both sides of two.
func saysAllowed(l report.Limit) bool {
	from, to, both := strings.Cut(l.Allowed, " to ")
	if both {
		return opens(l.Text, from) && closes(l.Text, to)
	}
	return from != "" && (opens(l.Text, from) || closes(l.Text, from))
}

// opens and closes report whether a comparison begins or ends with a value.
func opens(text, value string) bool {
	rest, is := strings.CutPrefix(text, value)
	return is && strings.IndexAny(strings.TrimLeft(rest, " "), "<>=") == 0
}

func closes(text, value string) bool {
	rest, is := strings.CutSuffix(text, value)
	rest = strings.TrimRight(rest, " ")
	return is && rest != "" && strings.IndexByte("<>=", rest[len(rest)-1]) >= 0
}

// limitOf is a limit as it is written, and of which worksheet it is where that is
// another one.
func limitOf(l report.Limit) string {
	text := code(l.Text, inCell)
	if l.Of != "" {
		text += " of " + code(l.Of, inCell)
	}
	return text
}

// verdict says how a limit is kept, or why that is not known.
func verdict(l report.Limit) string {
	text := l.Verdict()
	if rest, is := strings.CutPrefix(text, report.Broken); is {
		return "**" + report.Broken + "**" + rest
	}
	return text + remark(l.State, l.Waits, "")
}
