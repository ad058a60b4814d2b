package evaluate

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

func readCase(stem, part string) *conformanceCase {
	name, body, _ := strings.Cut(part, "\n")
	c := &conformanceCase{name: stem + "/" + name, sheet: &sheet.Sheet{Name: "notes.md"}, files: caseFiles{}}
	section := "block"
	var lines []string
	flush := func() { c.section(section, lines); lines = nil }
	for _, line := range strings.Split(body, "\n") {
		if head, ok := strings.CutPrefix(line, "-- "); ok {
			flush()
			section = head
			continue
		}
		lines = append(lines, line)
	}
	flush()
	return c
}

func (c *conformanceCase) section(head string, lines []string) {
	kind, arg, _ := strings.Cut(head, " ")
	for len(lines) > 0 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	switch kind {
	case "block":
		b := c.block(lines)
		c.sheet.Blocks, c.lines = append(c.sheet.Blocks, b), append(c.lines, b.Lines...)
	case "results":
		c.results = append(c.results, lines...)
	case "table":
		c.sheet.Tables = append(c.sheet.Tables, c.table("notes.md", arg, lines))
	case "file":
		c.files[arg] = &sheet.Sheet{Name: arg, Blocks: []syntax.Block{plainBlock(lines)}}
	case "data":
		c.files[arg] = &sheet.Sheet{Name: arg, Data: true, Tables: []*syntax.Table{c.table(arg, "", lines)}}
	default:
		panic("conformance: no section " + head)
	}
}

// block takes the announcements out and gives the rest its offsets.
func (c *conformanceCase) block(lines []string) syntax.Block {
	var b syntax.Block
	for _, line := range lines {
		if isAnnouncement(line) {
			c.announce(line, b.Lines[len(b.Lines)-1])
			continue
		}
		b.Lines = append(b.Lines, syntax.Line{Text: line, Offset: c.offset})
		c.offset += len(line) + 1
	}
	return b
}

func plainBlock(lines []string) syntax.Block {
	var c conformanceCase
	return c.block(lines)
}

func isAnnouncement(line string) bool { return line != "" && strings.IndexByte("!&~", line[0]) >= 0 }

// announce reads "!    ^^^^ summary | hint" under a line. The ! stands for the
// first column where carets follow it at once, or none at all.
func (c *conformanceCase) announce(line string, above syntax.Line) {
	rest := strings.TrimLeft(line[1:], " ")
	carets := len(rest) - len(strings.TrimLeft(rest, "^"))
	from, to := len(line)-len(rest), len(line)-len(rest)+carets
	if carets == 0 {
		from, to = 0, 1
	} else if from == 1 {
		from = 0
	}
	summary, hint, _ := strings.Cut(rest[carets:], " | ")
	c.wanted = append(c.wanted, &announced{
		mark:  line[0],
		start: above.Offset + byteColumn(above.Text, from), end: above.Offset + byteColumn(above.Text, to),
		summary: strings.TrimSpace(summary), hint: strings.TrimSpace(hint),
	})
}

// byteColumn is the byte at which a rune column begins.
func byteColumn(text string, column int) int {
	at := 0
	for range column {
		if at >= len(text) {
			break
		}
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return at
}

func (c *conformanceCase) table(file, name string, lines []string) *syntax.Table {
	t := &syntax.Table{Name: syntax.Ident{Name: name, At: syntax.At{Span: message.Span{File: file, Start: c.offset, End: c.offset}}}}
	var last syntax.Line
	for _, line := range lines {
		if isAnnouncement(line) {
			c.announce(line, last)
			continue
		}
		last = syntax.Line{Text: line, Offset: c.offset}
		row := cells(file, last)
		c.offset += len(line) + 1
		if t.Head == nil {
			t.Head = row
			continue
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// inCell is an inline value in ticks, as it stands in a cell.
var inCell = regexp.MustCompile("^`([^ ]+) \\[([^]]+)\\] =.*`$")

func cell(file, text string, start int) syntax.Cell {
	at := func(from, to int) syntax.At {
		return syntax.At{Span: message.Span{File: file, Start: start + from, End: start + to}}
	}
	c := syntax.Cell{At: at(0, len(text)), Text: text}
	if m := inCell.FindStringSubmatchIndex(text); m != nil {
		c.Worked = &syntax.Worked{Of: syntax.Reference(file, text[m[2]:m[3]], start+m[2]), Unit: syntax.Unit{At: at(m[4], m[5]), Text: text[m[4]:m[5]]}}
		c.Text = text[m[2]:m[3]] + " [" + text[m[4]:m[5]] + "]"
	}
	return c
}

func cells(file string, line syntax.Line) []syntax.Cell {
	var row []syntax.Cell
	at := line.Offset
	for _, text := range strings.Split(line.Text, "|") {
		trimmed := strings.TrimSpace(text)
		start := at + strings.Index(text, trimmed)
		row = append(row, cell(file, trimmed, start))
		at += len(text) + 1
	}
	return row
}
