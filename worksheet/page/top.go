package page

import (
	"html"
	"strings"
)

// top is the head of a page: its title, how it stands, and the contents.
func (m *maker) top(title string) Section {
	var out strings.Builder
	out.WriteString(`<header id="top"><h1`)
	if m.titleID != "" {
		out.WriteString(` id="` + html.EscapeString(m.titleID) + `"`)
	}
	out.WriteString(">" + html.EscapeString(title) + "</h1>" + m.state.HTML("") + m.contents() + "</header>")
	return Section{"top", out.String()}
}

// HTML is a status line; each part of it leads to its place in the page at href.
func (s State) HTML(href string) string {
	var parts []string
	add := func(class string, g gravity, count int, says string, marks []Mark) {
		if count == 0 {
			return
		}
		links := make([]string, len(marks))
		for i, m := range marks {
			links[i] = `<a href="` + html.EscapeString(href) + "#" + html.EscapeString(m.ID) + `" title="` + html.EscapeString(m.Text) + `">` + itoa(i+1) + "</a>"
		}
		text := says
		if len(marks) == 1 {
			text = `<a href="` + html.EscapeString(href) + "#" + html.EscapeString(marks[0].ID) + `">` + says + "</a>"
		} else if len(marks) > 1 {
			text += " " + strings.Join(links, " ")
		}
		parts = append(parts, `<li class="`+class+`">`+sign(g)+"<span>"+text+"</span></li>")
	}
	if n := len(s.Failed); n > 0 {
		add("danger", failed, n, counted(n, "line is", "lines are")+" not worked", s.Failed)
	}
	if n := len(s.Broken); n > 0 {
		add("danger", failed, n, counted(n, "limit is", "limits are")+" broken", s.Broken)
	}
	if n := len(s.Waiting); n > 0 {
		add("warning", warning, n, counted(n, "limit waits", "limits wait"), s.Waiting)
	}
	if n := len(s.Doubtful); n > 0 {
		add("warning", warning, n, counted(n, "limit holds", "limits hold")+" only for a part of the interval", s.Doubtful)
	}
	if n := len(s.Dangers); n > 0 {
		add("danger", danger, n, counted(n, "danger", "dangers"), s.Dangers)
	}
	if n := len(s.Standing); n > 0 {
		add("danger hazards", danger, n, counted(n, "standing hazard", "standing hazards"), s.Standing)
	}
	if n := len(s.Warnings); n > 0 {
		add("warning", warning, n, counted(n, "warning", "warnings"), s.Warnings)
	}
	return `<ul class="status"><li class="sum">` + s.sum() + "</li>" + strings.Join(parts, "") + "</ul>"
}

// sum is how a page stands in one phrase.
func (s State) sum() string {
	switch {
	case s.Limits == 0 && len(s.Failed) == 0:
		return "Everything is worked."
	case s.Limits == 0:
		return "Not everything is worked."
	case len(s.Broken)+len(s.Failed)+s.Unknown > 0:
		kept := s.Limits - len(s.Broken) - s.Unknown
		return itoa(kept) + " of " + counted(s.Limits, "limit", "limits") + " kept."
	case s.Limits == 1:
		return "Its one limit holds."
	case s.Limits == 2:
		return "Both limits hold."
	}
	return "All " + itoa(s.Limits) + " limits hold."
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return itoa(n) + " " + more
}

// contents lists the headings of a page that has more than a few.
func (m *maker) contents() string {
	const few = 3
	if len(m.headings) < few {
		return ""
	}
	var out strings.Builder
	out.WriteString(`<nav aria-label="Contents"><ul class="contents">`)
	for _, h := range m.headings {
		if h.level <= 3 {
			out.WriteString(`<li class="l` + itoa(h.level) + `"><a href="#` + html.EscapeString(h.id) + `">` + h.html + "</a></li>")
		}
	}
	out.WriteString("</ul></nav>")
	return out.String()
}
