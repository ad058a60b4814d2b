package main

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// A growing input is one of n parts: a worksheet, and what lies beside it.
type growing struct {
	name  string
	page  func(n int) string
	files func(n int) map[string]string
}

// rep is n times a line, with its number for %d, the one before it for %p, and the one
// before that for %o.
func rep(n int, line string) string { return from(1, n, line) }

func lastly(n int, line string) string { return from(n, n, line) }

func from(first, n int, line string) string {
	var out strings.Builder
	for i := first; i <= n; i++ {
		out.WriteString(strings.NewReplacer("%d", strconv.Itoa(i), "%p", strconv.Itoa(i-1), "%o", strconv.Itoa(i-2)).Replace(line))
	}
	return out.String()
}

func working(text string) string {
	return "```working\n" + strings.TrimSuffix(text, "\n") + "\n```\n\n"
}

// grown are all growing inputs, in an order of their own.
func grown() (all []growing) {
	add := func(name string, page func(n int) string) {
		all = append(all, growing{name, page, func(int) map[string]string { return beside }})
	}
	each(statements, func(name, line string) {
		add("statement, "+name, func(n int) string { return setting + working(rep(n, line+"\n")) })
		add("blocks, "+name, func(n int) string { return setting + rep(n/2, working(line)) })
	})
	each(wide, func(name string, part [3]string) {
		add("wide, "+name, func(n int) string { return setting + working(part[0]+rep(n, part[1])+part[2]) })
	})
	each(webs, func(name string, web func(n int) string) {
		add("web, "+name, func(n int) string { return setting + working(web(n)) })
	})
	each(inline, func(name, part string) {
		each(containers, func(where string, in [2]string) {
			add(where+", "+name, func(n int) string { return setting + in[0] + rep(n, strings.ReplaceAll(in[1], "…", part)) + "\n" })
		})
	})
	each(parts, func(name, part string) {
		add("part, "+name, func(n int) string { return setting + rep(n/2, part) })
		add("part quoted, "+name, func(n int) string { return setting + behind("> ", "> ", rep(n/2, part)) })
		add("part in list in quote, "+name, func(n int) string { return setting + behind("- > - ", "  >   ", rep(n/2, part)) })
		add("part in HTML, "+name, func(n int) string { return setting + "<div>\n\n" + rep(n/2, part) + "\n</div>\n" })
		add("part in item, "+name, func(n int) string { return setting + behind("- ", "  ", rep(n/2, part)) })
	})
	each(tables, func(name string, part [3]string) {
		add("table, "+name, func(n int) string {
			return setting + "<!-- table: t -->\n\n" + part[0] + rep(n, part[1]) + "\n" + working(part[2])
		})
	})
	each(columned, func(name string, part [2]string) {
		add("table, "+name, func(n int) string {
			return setting + "<!-- table: t -->\n\n" + rep(n, "| "+part[0]+" ") + "|\n" + rep(n, "| - ") + "|\n" + rep(n, "| %d ") + "|\n\n" + working(part[1])
		})
	})
	each(ofColumns, func(name string, part [3]string) {
		add("table, "+name, func(n int) string {
			return setting + "<!-- table: t -->\n\n" + rep(n, "| c%d [V] ") + "|\n" + rep(n, "| - ") + "|\n" + rep(n, "| %d ") + "|\n" + rep(n, "| %d ") + "|\n\n" + working(part[0]+from(2, n, part[1])+part[2])
		})
	})
	each(sought, func(name, line string) {
		add("sought, "+name, func(n int) string {
			return setting + "<!-- table: t -->\n\n| part | mass [g] | far [m] |\n| - | - | - |\n| p0 | 0 | 1 |\n" + rep(n/2, "| p%d | %d | 1 |\n") + "\n" + working("k = 3\n"+rep(n/2, line+"\n"))
		})
	})
	each(soughtColumns, func(name, line string) {
		add("sought, "+name, func(n int) string {
			return setting + "<!-- table: t -->\n\n" + rep(n/2, "| c%d [V] ") + "|\n" + rep(n/2, "| - ") + "|\n" + rep(n/2, "| %d ") + "|\n\n" + working("k = 3\n"+rep(n/2, line+"\n"))
		})
	})
	each(data, func(name string, part [3]string) {
		all = append(all, growing{"data, " + name, func(int) string { return setting + working(part[2]) },
			func(n int) map[string]string { return with("data.csv", part[0]+rep(n, part[1])) }})
	})
	each(dataColumns, func(name string, part [3]string) {
		all = append(all, growing{"data, " + name, func(int) string { return setting + working(part[2]) },
			func(n int) map[string]string {
				return with("data.csv", rep(n, part[0])+"z\n"+rep(n, part[1])+"1\n")
			}})
	})
	each(deep, func(name string, part func(n int) string) {
		add("deep, "+name, func(n int) string { return setting + part(n) })
	})
	all = append(all, folders...)
	return all
}

// each goes through a map in the order of its names.
func each[T any](m map[string]T, do func(name string, value T)) {
	for _, name := range slices.Sorted(maps.Keys(m)) {
		do(name, m[name])
	}
}

// behind puts a mark before the first line of a text, and another before each further.
func behind(first, further, text string) string {
	return first + strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n"+further) + "\n"
}

// beside are the files that statements use.
var beside = map[string]string{
	"page.md":  working("g = 1 V\nh = 2 * g"),
	"data.csv": "a [V],b\n1,2\n3,4\n",
	"rules.md": "```keeping\nevery limit where text contains \"a\": headroom >= 0 %\nevery quantity where name endsWith \"b\": value <= 3 V\nno error\n```\n",
}

func with(name, text string) map[string]string {
	files := maps.Clone(beside)
	files[name] = text
	return files
}

// containers are where prose may repeat: what stands before, and what is repeated with
// the prose for ….
var containers = map[string][2]string{
	"line":       {"", "…"},
	"paragraphs": {"", "…\n\n"},
	"items":      {"", "- …\n"},
	"quotes":     {"", "> …\n"},
	"cells":      {"| a |\n| - |\n", "| … |\n"},
	"headings":   {"", "# …\n"},
	"links":      {"", "[…](to) "},
	"emphases":   {"", "*…* "},
	"nested":     {"", "> - > …\n>   >\n"},
	"HTML":       {"", "<p>…</p>\n"},
	"summaries":  {"", "<details>\n<summary>…</summary>\n\n</details>\n\n"},
	"titles":     {"", "[of%d]: to.md '…'\n"},
}

// deep are containers in containers.
var deep = map[string]func(n int) string{
	"quotes":         func(n int) string { return rep(n, "> ") + "of\n" },
	"items":          func(n int) string { return rep(n, "- ") + "of\n" },
	"quoted items":   func(n int) string { return rep(n, "> - ") + "of\n" },
	"lists":          func(n int) string { return stairs(n, 1000, "  ", "- of\n") },
	"lists to 50":    func(n int) string { return stairs(n, 50, "  ", "- of\n") },
	"lists to 90":    func(n int) string { return stairs(n, 90, "  ", "- of\n\n") },
	"lists of four":  func(n int) string { return stairs(n, 90, "    ", "1. of\n") },
	"quotes to 6":    func(n int) string { return stairs(n, 6, "> ", "of\n\n") },
	"quotes by line": func(n int) string { return stairs(n, 90, "> ", "of\n") },
	"brackets":       func(n int) string { return rep(n, "[") + "of" + rep(n, "](to)") + "\n" },
	"emphases":       func(n int) string { return rep(n, "*a ") + "of" + rep(n, " b*") + "\n" },
	"strongs":        func(n int) string { return rep(n, "**a ") + "of" + rep(n, " b**") + "\n" },
	"tags":           func(n int) string { return rep(n, "<b>") + "of" + rep(n, "</b>") + "\n" },
	"ticks":          func(n int) string { return backticks(n) + "\n" },
	"long ticks":     func(n int) string { return rep(n, "`") + "of" + rep(n, "`") + "\n" },
	"fence":          func(n int) string { return rep(n, "`") + "\nof\n" + rep(n, "`") + "\n" },
	"fence info":     func(n int) string { return "```working" + rep(n, " of") + "\nq = 1\n```\n" },
	"heading":        func(n int) string { return rep(n, "#") + " of\n" },
	"rule":           func(n int) string { return rep(n, "- ") + "\n\n" + rep(n, "_") + "\n" },
	"marker":         func(n int) string { return "<!-- worked" + rep(n, " of") + " -->\n\n<!-- /worked -->\n" },
	"table name":     func(n int) string { return "<!-- table: " + rep(n, "t") + " -->\n\n| a |\n| - |\n| 1 |\n" },
	"delimiters":     func(n int) string { return "| a |\n| " + rep(n, "-") + " |\n| 1 |\n" },
}

// stairs are n lines, each deeper than the one before, to so deep and out again.
func stairs(n, deepest int, step, line string) string {
	var out strings.Builder
	for i := range n {
		out.WriteString(strings.Repeat(step, i%max(1, min(deepest, n/10))) + line)
	}
	return out.String()
}

// backticks are rows of backticks of different lengths, of n backticks together.
func backticks(n int) string {
	var out strings.Builder
	for i := 1; out.Len() < n; i++ {
		out.WriteString(strings.Repeat("`", i) + " ")
	}
	return out.String()
}
