package page

import (
	"fmt"
	"html"
	"math"
	"strings"

	"inkwing/evaluate/explain"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/formula"
)

// limit is a bound of the builder's own: whether it is kept, in a word, and how
// much room is left, as a bar.
func (b *blockWriter) limit(x *syntax.Limit, line explain.Line) {
	b.state.Limits++
	found := b.limits[x.Span]
	if found == nil {
		b.state.Unknown++
		return // its line could not be worked, which is said at it
	}
	l := &lineWriter{b, line}
	id, word, class := b.verdict(found)
	b.out.put(`<div class="limit `, class, `" id="`, id, `">`, l.bound(x.Bound),
		`<div class="verdict"><b>`, word, "</b>", bar(found), `<span class="room">`, room(found), "</span></div>")
	if found.State == report.Evaluated && !found.Holds && found.Advice != "" {
		b.out.put(`<p class="advice">`, html.EscapeString(found.Advice), "</p>")
	}
	b.out.put("</div>")
}

// bound is what has to hold, in parts where it is wide.
func (l *lineWriter) bound(x syntax.Expr) string {
	parts := loose(l.notation(false), x)
	if len(parts) == 1 {
		return `<div class="bound">` + side(parts[0]) + "</div>"
	}
	for i := range parts {
		parts[i] = side(parts[i])
	}
	return `<div class="bound sides">` + strings.Join(parts, "") + "</div>"
}

// verdict is the word for a limit and its place, noted for the status line.
func (b *blockWriter) verdict(l *report.Limit) (id, word, class string) {
	id = b.id("l-limit")
	switch {
	case l.State != report.Evaluated:
		b.state.Unknown++
		b.state.Waiting = append(b.state.Waiting, Mark{id, l.Text})
		return id, "waits", "waiting"
	case !l.Holds:
		b.state.Broken = append(b.state.Broken, Mark{id, l.Text})
		return id, "broken", "broken"
	case l.Straddle:
		b.state.Doubtful = append(b.state.Doubtful, Mark{id, l.Text})
		return id, "kept, not surely", "doubtful"
	}
	return id, "kept", "kept"
}

// room is what is worked against what is allowed.
func room(l *report.Limit) string {
	switch {
	case l.State == report.Waiting && l.Waits != "":
		return "for <code>" + html.EscapeString(l.Waits) + "</code>"
	case l.State != report.Evaluated:
		return ""
	}
	text := formula.Text(l.Value) + " worked, " + formula.Text(l.Allowed) + " allowed"
	switch {
	case l.Headroom == "—":
	case l.Holds:
		text += ", headroom " + formula.Text(l.Headroom)
	default:
		text += ", over by " + formula.Text(l.Headroom[1:])
	}
	return text
}

// bar is the headroom as a length: full for as much again as is allowed.
func bar(l *report.Limit) string {
	if l.State != report.Evaluated || l.Margin == nil || l.Margin.Ratio == nil {
		return ""
	}
	width := math.Min(math.Abs(*l.Margin.Ratio), 1) * 100
	return fmt.Sprintf(`<svg class="bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true"><rect class="track" width="100" height="6"/><rect class="fill" width="%.1f" height="6"/></svg>`, math.Max(width, 1))
}
