package markdown

import (
	"bytes"
	"fmt"
	"html"
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

var tableMarker = regexp.MustCompile(`^<!--[ \t]*table:[ \t]*(.*?)[ \t]*-->$`)

// addTables reads the tables under <!-- table: name -->.
func (d *Document) addTables(tree ast.Node, skip int) {
	eachComment(tree, d.Source[skip:], func(n *ast.HTMLBlock, start int, comment []byte) {
		m := tableMarker.FindSubmatchIndex(comment)
		if m == nil || d.InRegion(start+skip) {
			return
		}
		name := syntax.Ident{Name: syntax.Canonical(string(comment[m[2]:m[3]]))}
		name.Span = d.span(start+skip+m[2], start+skip+m[3])
		t := &syntax.Table{Name: name}
		if next := n.NextSibling(); isTable(next) {
			d.readTable(t, next, skip)
			d.cutOff(t, next, skip)
		} else {
			t.Problems = append(t.Problems, message.Diagnostic{Span: d.span(start+skip, start+skip+len(comment)),
				Summary: "no table follows this comment",
				Hint:    "put a table with a line of dashes under its headings below it, a blank line between"})
		}
		d.Tables = append(d.Tables, t)
	})
}

// cutOff tells of rows that a blank line parts from their table: Markdown reads them
// as prose, and their numbers would be missing without a word.
func (d *Document) cutOff(t *syntax.Table, table ast.Node, skip int) {
	next := table.NextSibling()
	if next == nil || next.Kind() != ast.KindParagraph || next.Lines().Len() == 0 || len(t.Head) == 0 {
		return
	}
	at := lineAt(d.Source, next.Lines().At(0).Start+skip)
	if !bytes.HasPrefix(bytes.TrimLeft(d.Source[at.start:at.text], " \t>"), []byte("|")) || len(d.cells(at.start, at.text)) != len(t.Head) {
		return
	}
	t.Problems = append(t.Problems, message.Diagnostic{Span: d.span(at.start, at.text),
		Summary: "a blank line parts this row from its table", Hint: "take the blank line out"})
}

// readTable reads rows from their bytes: the tree drops a cell too many.
func (d *Document) readTable(t *syntax.Table, table ast.Node, skip int) {
	for row := table.FirstChild(); row != nil; row = row.NextSibling() {
		start := row.Pos() + skip
		end := lineAt(d.Source, start).text
		cells := d.cells(start, end)
		if t.Head == nil {
			t.Head = cells
			continue
		}
		if len(cells) != len(t.Head) {
			t.Problems = append(t.Problems, ragged(d.span(start, end), len(cells), len(t.Head)))
		}
		t.Rows = append(t.Rows, cells)
		d.keep(table, cells)
	}
}

// keep notes where a data table has cells that are inline values.
func (d *Document) keep(table ast.Node, cells []syntax.Cell) {
	for _, c := range cells {
		if c.Worked == nil {
			continue
		}
		if d.inCells[table] == nil {
			d.inCells[table] = map[int]bool{}
		}
		d.inCells[table][c.Worked.Of.Place().Start] = true
	}
}

// ragged says that a row does not fit its table.
func ragged(at message.Span, cells, columns int) message.Diagnostic {
	hint := "leave a cell empty where nothing is known"
	if cells > columns {
		hint = "add a heading, or take a cell out; a bar inside a cell is written \\|"
	}
	return message.Diagnostic{Span: at, Hint: hint,
		Summary: fmt.Sprintf("this row has %s, its table %s", count(cells, "cell"), count(columns, "column"))}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// cells splits source[start:end] at its bars; \| is none.
func (d *Document) cells(start, end int) (cells []syntax.Cell) {
	for start < end && isBlank(d.Source[start]) {
		start++
	}
	for start < end && isBlank(d.Source[end-1]) {
		end--
	}
	if start < end && d.Source[start] == '|' {
		start++
	}
	for from, at := start, start; at <= end; at++ {
		bar := at < end && d.Source[at] == '|' && d.Source[at-1] != '\\'
		if bar || at == end && (from < end || len(cells) == 0) {
			cells = append(cells, d.cell(from, at))
			from = at + 1
		}
	}
	return cells
}

func (d *Document) cell(start, end int) syntax.Cell {
	for start < end && isBlank(d.Source[start]) {
		start++
	}
	for start < end && isBlank(d.Source[end-1]) {
		end--
	}
	c := syntax.Cell{Text: plain(d.Source[start:end])}
	c.Span = d.span(start, end)
	d.worked(&c)
	return c
}

// worked finds out whether a cell is an inline value and nothing else.
func (d *Document) worked(c *syntax.Cell) {
	raw := string(d.Source[c.Span.Start:c.Span.End])
	if !strings.HasPrefix(raw, "`") || !strings.Contains(raw, "=") {
		return
	}
	inside, length := codeSpan(raw)
	m := inlineValue().FindStringSubmatchIndex(inside)
	if length != len(raw) || m == nil {
		return
	}
	unit := inside[m[4]:m[5]]
	if unit != "text" && !shownValue().MatchString(strings.TrimSpace(inside[m[6]:])) {
		return
	}
	at := c.Span.Start + strings.Index(raw, inside)
	c.Worked = &syntax.Worked{Of: syntax.Reference(d.Name, inside[m[2]:m[3]], at+m[2])}
	c.Worked.Unit = syntax.Unit{At: syntax.At{Span: d.span(at+m[4], at+m[5])}, Text: unit}
	c.Text = syntax.Canonical(inside[m[2]:m[3]]) + " [" + unit + "]"
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' }

// plain undoes a cell's Markdown: \| first, as the table does, then code ticks,
// escapes and entities. Emphasis stays as it is written.
func plain(raw []byte) string {
	text := strings.ReplaceAll(string(raw), `\|`, "|")
	if !strings.ContainsAny(text, "`\\&") {
		return text
	}
	var out strings.Builder
	for i := 0; i < len(text); {
		switch c := text[i]; {
		case c == '`':
			inside, length := codeSpan(text[i:])
			out.WriteString(inside)
			i += length
		case c == '\\' && i+1 < len(text) && isPunct(text[i+1]):
			out.WriteByte(text[i+1])
			i += 2
		case c == '&':
			end := strings.IndexByte(text[i:], ';') + 1
			out.WriteString(html.UnescapeString(text[i : i+max(end, 1)]))
			i += max(end, 1)
		default:
			out.WriteByte(c)
			i++
		}
	}
	return out.String()
}

// codeSpan reads a code span at the start of text, or only its ticks if they are
// not closed, and says how long that was.
func codeSpan(text string) (inside string, length int) {
	ticks := len(text) - len(strings.TrimLeft(text, "`"))
	for at := ticks; at < len(text); {
		i := strings.IndexByte(text[at:], '`')
		if i < 0 {
			break
		}
		at += i
		run := len(text[at:]) - len(strings.TrimLeft(text[at:], "`"))
		if run == ticks {
			return strings.TrimSpace(text[ticks:at]), at + run
		}
		at += run
	}
	return text[:ticks], ticks
}

func isPunct(c byte) bool {
	return bytes.IndexByte([]byte("!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~"), c) >= 0
}
