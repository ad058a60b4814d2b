package worksheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
	"unicode/utf8"

	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// MaxRows is how many rows a CSV file may have.
const MaxRows = 100_000

// csvSheet makes a sheet with one table, named after the file, out of CSV. A row
// that does not fit the head is a problem of the table, at the row.
func csvSheet(name string, text []byte) (*sheet.Sheet, error) {
	switch {
	case bytes.HasPrefix(text, []byte("\xff\xfe")), bytes.HasPrefix(text, []byte("\xfe\xff")):
		return nil, errors.New("is UTF-16: save it as UTF-8")
	case !utf8.Valid(text):
		return nil, errors.New("is not UTF-8: save it as UTF-8")
	}
	body := bytes.TrimPrefix(text, []byte("\ufeff"))
	skip := len(text) - len(body)
	t := &syntax.Table{}
	t.Name.Name = strings.TrimSuffix(path.Base(name), path.Ext(name))
	t.Name.Span = message.Span{File: name, Start: skip, End: skip}
	r := csv.NewReader(bytes.NewReader(body))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = separator(body), -1, true
	t.Commas = r.Comma != ','
	if err := csvTooMuch(body, byte(r.Comma)); err != nil {
		return nil, err
	}
	starts := lineStarts(body)
	for {
		record, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, csvError(err)
		}
		if len(t.Rows) == MaxRows {
			return nil, fmt.Errorf("has more than %d rows", MaxRows)
		}
		addRow(t, csvCells(r, name, body, record, starts, skip))
	}
	if t.Head == nil {
		return nil, errors.New("is empty: its first row names the columns")
	}
	if p := rowOfUnits(t); p != nil {
		t.Problems = append([]message.Diagnostic{*p}, t.Problems...)
	}
	return &sheet.Sheet{Data: true, Name: name, Tables: []*syntax.Table{t}}, nil
}

// rowOfUnits tells of a first row that is the units of the headings above it.
func rowOfUnits(t *syntax.Table) *message.Diagnostic {
	if len(t.Rows) < 2 || len(t.Rows[0]) != len(t.Head) {
		return nil
	}
	var heads []string
	for i, cell := range t.Rows[0] {
		text := strings.Trim(cell.Text, "[]() ")
		if _, err := units.Parse(text); err != nil || text == "" || strings.Contains(t.Head[i].Text, "[") {
			return nil
		}
		if _, err := strconv.ParseFloat(text, 64); err == nil {
			return nil
		}
		heads = append(heads, t.Head[i].Text+" ["+text+"]")
	}
	return &message.Diagnostic{Span: t.Rows[0][0].Span.To(t.Rows[0][len(t.Head)-1].Span),
		Summary: "its second row holds the units of the columns",
		Hint:    "write them into the headings, `" + strings.Join(heads, parting(t)) + "`, and delete that row"}
}

// parting is what stands between the cells of a heading as it is to be written.
func parting(t *syntax.Table) string {
	if t.Commas {
		return ";"
	}
	return ","
}

// addRow adds the head, then the rows.
func addRow(t *syntax.Table, cells []syntax.Cell) {
	if t.Head == nil {
		t.Head = cells
		return
	}
	if len(cells) != len(t.Head) {
		t.Problems = append(t.Problems, message.Diagnostic{
			Span:    cells[0].Span.To(cells[len(cells)-1].Span),
			Summary: fmt.Sprintf("cells in this row: %d; in the first row, which names the columns: %d", len(cells), len(t.Head)),
			Hint:    "leave a cell empty where nothing is known, and delete what stands above the headings",
		})
	}
	t.Rows = append(t.Rows, cells)
}

// csvCells gives a record's cells their places, quotes and blanks left out.
func csvCells(r *csv.Reader, name string, body []byte, record []string, starts []int, skip int) []syntax.Cell {
	cells := make([]syntax.Cell, len(record))
	for i, text := range record {
		line, column := r.FieldPos(i)
		start := starts[line-1] + column - 1
		if start < len(body) && body[start] == '"' {
			start++
		}
		trimmed := strings.TrimSpace(text)
		start += strings.Index(text, trimmed)
		cells[i].Text = trimmed
		cells[i].Span = message.Span{File: name, Start: start + skip, End: min(start+len(trimmed), len(body)) + skip}
	}
	return cells
}

// separator is the one of , ; and tab that the first row has most of outside
// quotes; a comma if it has none. One between two digits may be a decimal comma,
// and does not count.
func separator(body []byte) rune {
	counts := map[byte]int{}
	quoted := false
	for i, c := range body {
		if c == '\n' && !quoted {
			break
		}
		if c == '"' {
			quoted = !quoted
		} else if between := 0 < i && i < len(body)-1 && isDigit(body[i-1]) && isDigit(body[i+1]); !quoted && !(c == ',' && between) {
			counts[c]++
		}
	}
	best := byte(',')
	for _, c := range []byte(";\t") {
		if counts[c] > counts[best] {
			best = c
		}
	}
	return rune(best)
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// lineStarts is where each line begins.
func lineStarts(body []byte) []int {
	starts := []int{0}
	for i, c := range body {
		if c == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// csvError is a reader's error in our words.
func csvError(err error) error {
	var e *csv.ParseError
	if errors.As(err, &e) {
		switch e.Err {
		case csv.ErrQuote:
			return fmt.Errorf("cannot be read: a quote is out of place in line %d", e.Line)
		case csv.ErrBareQuote:
			return fmt.Errorf("cannot be read: a quote stands inside a cell in line %d; write it twice and quote the cell", e.Line)
		}
	}
	return fmt.Errorf("cannot be read: %w", err)
}
