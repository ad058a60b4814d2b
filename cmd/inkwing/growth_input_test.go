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

// data are CSV files whose rows repeat: the head, a row, and what reads it.
var data = map[string][3]string{
	"rows":         {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"columns told": {"a,b\n", "%d,2\n", "use \"data.csv\" as d (a [V], b [A])\nq = sum(d.a * d.b)"},
	"texts":        {"a,b\n", "of %d,2\n", "use \"data.csv\" as d\nq = d[\"of 3\"].b"},
	"quoted":       {"a,b\n", "\"of, %d\",\"\"\"\"\n", "use \"data.csv\" as d\nq = count(d)"},
	"line ends":    {"a,b\n", "\"of\n%d\",2\n", "use \"data.csv\" as d\nq = count(d)"},
	"quote open":   {"a,b\n", "of,\"%d\n", "use \"data.csv\" as d\nq = count(d)"},
	"one cell":     {"a,b\n1,\"", "of\n", "use \"data.csv\" as d\nq = count(d)"},
	"semicolons":   {"a [V];b\n", "%d,5;2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"tabs":         {"a [V]\tb\n", "%d,5\t2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"thousands":    {"a [V];b\n", "1,250;2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"words":        {"a [V],b\n", "of,2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"words, used":  {"a [V],b\n", "of,2\n", "use \"data.csv\" as d\nq = sum(d.a)\nq2 = d.a[3]\nshow d"},
	"empty":        {"a [V],b\n", ",\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"blank":        {"a [V],b\n", "\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"long rows":    {"a [V],b\n", "%d,2,3,4\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"short rows":   {"a [V],b\n", "%d\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"uncertain":    {"a [V],b\n", "%d ± 0.1,2\n", "use \"data.csv\" as d\nq = mean(d.a)"},
	"plotted":      {"a [V],b [s]\n", "%d,%d\n", "use \"data.csv\" as d\nchart \"of\": a against b from d"},
	"bars":         {"a,b [s]\n", "of %d,%d\n", "use \"data.csv\" as d\nchart \"of\": b against a from d"},
	"shown":        {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nshow d"},
	"where":        {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nq = sum((d where a > 3 V sorted by a).a)"},
	"varied":       {"a,b\n", "%d,2\n", "use \"data.csv\" as d (a [1], b [1])\nvary n in d.a: m"},
	"observed":     {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nq = observed(d.a)\nbudget q"},
	"fitted":       {"a [V],b [s]\n", "%d,%d\n", "use \"data.csv\" as d\nq = fit_line(d.b, d.a)\nq2 = interpolate(2 s, d.b, d.a)"},
	"carriage":     {"a [V],b\r", "%d,2\r", "use \"data.csv\" as d\nq = sum(d.a)"},
}

// dataColumns are CSV files of one row whose columns repeat: a heading, a cell, and
// what reads it.
var dataColumns = map[string][3]string{
	"wide":        {"c%d [V],", "%d,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide texts":  {"c%d,", "of,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide same":   {"c [V],", "%d,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide wrong":  {"c (V),", "%d,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide missed": {"c%d [V],", "%d,", "use \"data.csv\" as d\nq = d.e"},
	"wide empty":  {",", ",", "use \"data.csv\" as d\nq = d.e"},
	"wide words":  {"c%d [V],", "of,", "use \"data.csv\" as d\nq = d[1].c3"},
}

// folders are inputs of many files.
var folders = []growing{
	{"folder, page of many", func(n int) string {
		return working("use \"many.md\" as p\n" + rep(n, "q%d = p.c%d\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string { return with("many.md", working(rep(n, "c%d = %d V\n"))) }},
	{"folder, page of many, unknown", func(n int) string {
		return working("use \"many.md\" as p\n" + rep(n, "q%d = p.z%d\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string { return with("many.md", working(rep(n, "c%d = %d V\n"))) }},
	{"folder, page of errors", func(n int) string {
		return working("use \"many.md\" as p\n" + rep(n, "q%d = p.c%d\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string { return with("many.md", working(rep(n, "c%d = 1 V + 1 A\n"))) }},
	{"folder, pages through one", func(n int) string {
		return working(rep(n/20, "use \"p%d.md\"\nq%d = p%d.e + 1 V\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string {
		files := manyFiles(n/20, "p%d.md", working("use \"hub.md\"\ne = hub.d\n"))
		files["hub.md"] = working(rep(n/20, "use \"d%d.md\"\nf%d = d%d.c\n") + "d = 1 V")
		for i := 1; i <= n/20; i++ {
			files[from(i, i, "d%d.md")] = working("c = 2 V")
		}
		return files
	}},
	{"folder, pages", func(int) string { return setting }, func(n int) map[string]string {
		return manyFiles(n/20, "p%d.md", working("c%d = 2 V\ne%d = 2 * c%d"))
	}},
	{"folder, pages used", func(n int) string {
		return working(rep(n/20, "use \"p%d.md\"\nq%d = p%d.e + 1 V\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string {
		return manyFiles(n/20, "p%d.md", working("c = 2 V\ne = 2 * c"))
	}},
	{"folder, pages that use one", func(int) string { return setting }, func(n int) map[string]string {
		return manyFiles(n/20, "p%d.md", working("use \"page.md\"\nc = page.h\n"))
	}},
	{"folder, data used", func(n int) string {
		return working(rep(n/20, "use \"d%d.csv\"\nq%d = sum(d%d.a)\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string {
		return manyFiles(n/20, "d%d.csv", "a [V],b\n1,2\n")
	}},
	{"folder, charts left", func(int) string { return setting + working("chart \"of\": m against n from log") }, func(n int) map[string]string {
		return manyFiles(n/20, "notes.charts/of-%d.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\">\n\n\n<metadata>inkwing chart: rewritten by every run</metadata>\n</svg>\n")
	}},
	{"folder, rules", func(int) string { return setting }, func(n int) map[string]string {
		return with("rules.md", "```keeping\n"+rep(n/4, "every quantity where name endsWith \"b%d\": value <= 3 V\n")+"```\n")
	}},
	{"folder, rules broken", func(int) string { return setting }, func(n int) map[string]string {
		return with("rules.md", "```keeping\n"+rep(n/4, "every quantity: value <= %d nV\n")+"```\n")
	}},
	{"folder, rules of pages", func(int) string { return setting }, func(n int) map[string]string {
		return with("rules.md", rep(n/4, "```keeping\nevery quantity where name endsWith \"b%d\": value <= 3 V\n```\n\n"))
	}},
	{"folder, rules of many", func(n int) string { return working(rep(n, "q%d = %d V * 2\nlimit q%d > 3 V\n") + "a = 1 V\nb = 2 * a") }, func(int) map[string]string { return beside }},
	{"folder, rules all break", func(n int) string { return working(rep(n, "q%db = %d V * 2\n") + "a = 1 V\nb = 2 * a") }, func(int) map[string]string { return beside }},
	{"folder, gathered", func(n int) string {
		return working("a = 1 V\nb = 2 * a") + "```gather\nquantity where name == \"e\"\n  from \"pages\"\n  columns journal, name, value\n  units V\n  sort value\n  chart \"of\"\n```\n"
	}, func(n int) map[string]string {
		return manyFiles(n/20, "pages/p%d.md", working("c = %d V\ne = 2 * c"))
	}},
	{"folder, gathered rows", func(n int) string {
		return working("a = 1 V\nb = 2 * a") + "```gather\nquantity\n  from \"pages\"\n  columns journal, name, value\n  sort name\n```\n"
	}, func(n int) map[string]string {
		return with("pages/p.md", working("a = 1 V\n"+rep(n, "e%d = 2 * a\n")))
	}},
}

func manyFiles(n int, name, text string) map[string]string {
	files := maps.Clone(beside)
	for i := 1; i <= n; i++ {
		files[rep(1, strings.ReplaceAll(name, "%d", strconv.Itoa(i)))] = from(i, i, text)
	}
	return files
}
