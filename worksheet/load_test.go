package worksheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/syntax"
)

// folder is files by their path.
type folder map[string]string

func (f folder) Read(path string) ([]byte, error) {
	if text, ok := f[path]; ok {
		return []byte(text), nil
	}
	return nil, errors.New("is not there")
}

func (f folder) List(dir string) (names []string, _ error) {
	for path := range f {
		if name, ok := strings.CutPrefix(path, dir+"/"); ok {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names, nil
}

func TestResolve(t *testing.T) {
	for _, c := range []struct{ from, use, want string }{
		{"notes.md", "parts.md", "parts.md"},
		{"a/b/notes.md", "parts.md", "a/b/parts.md"},
		{"a/b/notes.md", "../parts.md", "a/parts.md"},
		{"a/b/notes.md", "../../parts.md", "parts.md"},
		{"a/notes.md", "./x/../parts.md", "a/parts.md"},
		{"a/notes.md", "...md", "a/...md"},
		{"a/notes.md", "../../parts.md", "!leads out"},
		{"notes.md", "..", "!leads out"},
		{"notes.md", "/etc/parts.md", "!absolute"},
		{"notes.md", "C:parts.md", "!absolute"},
		{"notes.md", "c:/parts.md", "!absolute"},
		{"notes.md", `..\parts.md`, "!backslashes"},
		{"notes.md", "a\x00.md", "!zero byte"},
		{"notes.md", "", "!empty"},
	} {
		got, err := resolve(c.from, c.use)
		if err != nil {
			got = "!" + err.Error()
		}
		if want, bad := strings.CutPrefix(c.want, "!"); bad != (err != nil) || !strings.Contains(got, want) || !bad && got != want {
			t.Errorf("%s uses %q: got %q, want %q", c.from, c.use, got, c.want)
		}
	}
}

func TestLoad(t *testing.T) {
	l := newLoader(t.Context(), folder{
		"a/parts.md": one + "\n<!-- table: t -->\n\n| a |\n| --- |\n| 1 |\n",
		"a/table.md": "<!-- table: t -->\n\n| a |\n| --- |\n| 1 |\n",
		"a/prose.md": "nothing here\n",
		"a/open.md":  "text\n\n```working\na\n",
		"a/bad.md":   one + "\xff\n",
		"a/log.csv":  "t,U\n1,2\n",
		"a/big.csv":  strings.Repeat("x", MaxFile+1),
	}, nil)
	for use, want := range map[string]string{
		"parts.md": "a/parts.md: 1 blocks, 1 tables", "table.md": "a/table.md: 0 blocks, 1 tables",
		"log.csv": "a/log.csv: 0 blocks, 1 tables", "prose.md": "holds no working block and no table with a name",
		"open.md": "cannot be used: its line 3: this working block is not closed",
		"bad.md":  "cannot be used: its line 4: the byte here is not UTF-8",
		"big.csv": "is larger than 16 MiB", "none.md": "is not there", "../../x.md": "leads out of the folder that the run may read",
	} {
		sheet, err := l.Load("a/notes.md", use)
		got := ""
		if err != nil {
			got = err.Error()
		} else {
			got = fmt.Sprintf("%s: %d blocks, %d tables", sheet.Name, len(sheet.Blocks), len(sheet.Tables))
		}
		if got != want {
			t.Errorf("%s: got %q, want %q", use, got, want)
		}
	}
}

func TestCSV(t *testing.T) {
	for name, c := range map[string]struct{ text, want, problem string }{
		"comma":          {"t,U\n1,2.5\n3,4\n", "t U/1 2.5/3 4", ""},
		"semicolon":      {"t;U\n1;2,5\n", "t U/1 2,5", ""},
		"tab":            {"t [s]\tU [V]\n1\t2,5\n", "t [s] U [V]/1 2,5", ""},
		"BOM, CRLF":      {"\ufefft,U\r\n1,2\r\n", "t U/1 2", ""},
		"quoted":         {"\"a, b\",U\n\"x \"\"y\"\"\", 2 \n", "a, b U/x \"y\" 2", ""},
		"blank line":     {"t,U\n\n1,2\n", "t U/1 2", ""},
		"one column":     {"t\n1\n2\n", "t/1/2", ""},
		"ragged":         {"t,U\n1\n3,4,5\n", "t U/1/3 4 5", "cells in this row: 1; in the first row, which names the columns: 2; cells in this row: 3; in the first row, which names the columns: 2"},
		"no end of line": {"t,U\n1,2", "t U/1 2", ""},
		"empty":          {"", "!is empty", ""},
		"open quote":     {"a,b\n\"x,1\n", "!a quote is out of place in line", ""},
		"bare quote":     {"a,b\nx\"y,1\n", "!a quote stands inside a cell in line 2", ""},
		"not UTF-8":      {"a,b\n\xe9,1\n", "!is not UTF-8", ""},
	} {
		sheet, err := csvSheet("d/log.csv", []byte(c.text))
		if want, bad := strings.CutPrefix(c.want, "!"); bad {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: error %v, want %s", name, err, want)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		table := sheet.Tables[0]
		var rows, problems []string
		for _, row := range append([][]syntax.Cell{table.Head}, table.Rows...) {
			var texts []string
			for _, x := range row {
				texts = append(texts, x.Text)
				if at := c.text[x.Span.Start:x.Span.End]; at != x.Text && !strings.Contains(x.Text, `"`) {
					t.Errorf("%s: %q is at the place of %q", name, at, x.Text)
				}
			}
			rows = append(rows, strings.Join(texts, " "))
		}
		for _, p := range table.Problems {
			problems = append(problems, p.Summary)
		}
		if got := strings.Join(rows, "/"); got != c.want || strings.Join(problems, "; ") != c.problem || table.Name.Name != "log" {
			t.Errorf("%s: got %q, problems %q, name %q", name, got, problems, table.Name.Name)
		}
	}
}

// TestMaxRows tries the bound and one past it.
func TestMaxRows(t *testing.T) {
	text := "t\n" + strings.Repeat("1\n", MaxRows)
	if _, err := csvSheet("a.csv", []byte(text)); err != nil {
		t.Error("at the bound:", err)
	}
	if _, err := csvSheet("a.csv", []byte(text+"1\n")); err == nil {
		t.Error("past the bound: no error")
	}
}
