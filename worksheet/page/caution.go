package page

import (
	"html"
	"slices"
	"strings"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/formula"
)

// A gravity says how grave a point is, gravest last.
type gravity int

const (
	advice gravity = iota
	warning
	danger
	failed
)

// signs are shapes that differ without their colour: a circle, a triangle, a
// diamond, a cross in a square.
var signs = [...]string{
	advice:  `<circle cx="8" cy="8" r="6.5"/><path d="M8 7v4.5M8 4.2v.8"/>`,
	warning: `<path d="M8 1.8 15 14H1z"/><path d="M8 6v4M8 11.6v.8"/>`,
	danger:  `<path d="M8 .8 15.2 8 8 15.2.8 8z"/><path d="M8 4.6v4M8 10.4v.8"/>`,
	failed:  `<path d="M1.5 1.5h13v13h-13z"/><path d="m5 5 6 6m0-6-6 6"/>`,
}

var gravityWords = [...]string{advice: "Note", warning: "Warning", danger: "Danger"}

func sign(g gravity) string {
	return `<svg class="sign" viewBox="0 0 16 16" aria-hidden="true">` + signs[g] + "</svg>"
}

func gravityOf(c report.Caution) gravity {
	switch {
	case c.Level == model.Danger:
		return danger
	case c.Level == model.Warning || c.Kind == report.OfLimit:
		return warning
	}
	return advice
}

// cautions are a block's points, gravest first. What is broken among the builder's
// own limits stands at the limit.
func (m *maker) cautions(list []report.Caution) {
	list = slices.DeleteFunc(slices.Clone(list), func(c report.Caution) bool { return c.Kind == report.OfLimit })
	slices.SortStableFunc(list, func(a, b report.Caution) int { return int(gravityOf(b)) - int(gravityOf(a)) })
	for _, c := range list {
		m.caution(c)
	}
}

// Caution is one point by itself, all of it in sight.
func Caution(c report.Caution) string {
	g := gravityOf(c)
	lead, rest := parts(c)
	return `<div class="caution ` + classes[g] + `">` + sign(g) + "<div><p>" + lead + "</p>" + rest + "</div></div>"
}

var classes = [...]string{advice: "advice", warning: "warning", danger: "danger"}

// caution is one point of a worksheet; what is only worth knowing opens when asked.
func (m *maker) caution(c report.Caution) {
	g := gravityOf(c)
	id := m.id("c-" + c.ID)
	switch {
	case g == danger && c.Kind == report.OfStanding:
		m.state.Standing = append(m.state.Standing, Mark{id, c.Summary})
	case g == danger:
		m.state.Dangers = append(m.state.Dangers, Mark{id, c.Summary})
	case g == warning:
		m.state.Warnings = append(m.state.Warnings, Mark{id, c.Summary})
	}
	lead, rest := parts(c)
	if g == advice {
		m.out.put(`<details class="caution advice" id="`, id, `"><summary>`, sign(g), "<span>", lead, "</span></summary>", rest, "</details>")
		return
	}
	m.out.put(`<div class="caution `, classes[g], `" id="`, id, `">`, sign(g), "<div><p>", lead, "</p>", rest, "</div></div>")
}

// parts are a point's finding, and below it what to do, why, and whence.
func parts(c report.Caution) (lead, rest string) {
	var out buffer
	out.put("<b>", gravityWords[gravityOf(c)], "</b> ")
	out.ticks(c.Summary)
	end := out.Len()
	if len(c.Names) > 1 {
		out.put(`<p class="why">It concerns `, named(c.Names), ".</p>")
	}
	if c.Hint != "" {
		out.put(`<p class="mend">`)
		out.ticks(c.Hint)
		out.put("</p>")
	}
	if why := whyOf(c); why != "" {
		out.put(`<p class="why">`, why, "</p>")
	}
	all := out.String()
	return all[:end], all[end:]
}

// whyOf is why a point matters, and who says so.
func whyOf(c report.Caution) string {
	why := ticks(strings.TrimSpace(c.Why))
	if c.Source == "" {
		return why
	}
	return strings.TrimSpace(why + " Source: " + formula.Joined(html.EscapeString(message.Ended(c.Source))))
}

// named are names in a row; of very many the first ones, and how many more there are.
func named(names []string) string {
	const most = 12
	more := ""
	if n := len(names) - most; n > 1 {
		names, more = names[:most], " and "+itoa(n)+" more"
	}
	codes := make([]string, len(names))
	for i, n := range names {
		codes[i] = "<code>" + html.EscapeString(n) + "</code>"
	}
	return strings.Join(codes, ", ") + more
}
