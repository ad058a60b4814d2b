package markdown

import (
	"bytes"
	"fmt"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// How much of a file is read. A tree takes some hundred bytes a part, whatever the
// part holds, so that a few megabytes of ticks would fill a machine's memory.
const (
	MaxParts = 300_000 // lines with text, and spans of code or HTML
	MaxCells = 300_000 // cells of all tables, those that short rows lack too
	blanks   = 8       // so many blank lines count for one with text
)

// parts is how many parts a tree of the source could have.
func parts(source []byte) int {
	lines, blank := 0, 0
	for rest := source; len(rest) > 0; {
		line := rest
		if end := bytes.IndexByte(rest, '\n'); end >= 0 {
			line, rest = rest[:end], rest[end+1:]
		} else {
			rest = nil
		}
		if len(line) == 0 || len(line) == 1 && line[0] == '\r' || util.IsBlank(line) {
			blank++
		} else {
			lines++
		}
	}
	marks := bytes.Count(source, []byte("`")) + bytes.Count(source, []byte("<"))
	return lines + blank/blanks + marks/2
}

// tooMany refuses a file that holds more than is read; true where it does.
func (d *Document) tooMany() bool {
	if len(d.Source) < MaxParts {
		return false
	}
	n := parts(d.Source)
	if n <= MaxParts {
		return false
	}
	d.refuse(0, 0, fmt.Sprintf("this file has %d lines and spans of code or HTML; a run takes %d at most", n, MaxParts),
		"split the file, and let one part use the other; many rows alike belong in a CSV file")
	return true
}

// Dense refuses a text of which a page would have too many parts: there, emphasis and
// links count too.
func (d *Document) Dense() bool {
	n := 0
	for _, mark := range []string{"*", "_", "[", "~", "!", "&", "://", "www."} {
		n += bytes.Count(d.Source, []byte(mark))
	}
	if n/2 <= MaxParts {
		return false
	}
	d.refuse(0, 0, fmt.Sprintf("this file has about %d marks of emphasis and links; a page takes %d at most", n, 2*MaxParts),
		"split the file")
	return true
}

// cellsKey holds how many cells the tables have so far, and manyKey where they
// became too many.
var cellsKey, manyKey = parser.NewContextKey(), parser.NewContextKey()

// tables is goldmark's own transformer, which fills short rows up: a hundred thousand
// rows of one cell under a head of thousands are hundreds of millions of cells.
type tables struct{ parser.ParagraphTransformer }

func (t tables) Transform(node *ast.Paragraph, reader text.Reader, pc parser.Context) {
	lines, source := node.Lines(), reader.Source()
	for i := 1; i < lines.Len(); i++ {
		if line := lines.At(i); isDelimiter(line.Value(source)) {
			n, _ := pc.Get(cellsKey).(int)
			n += (lines.Len() - i) * (1 + bytes.Count(line.Value(source), []byte("|")))
			pc.Set(cellsKey, n)
			if n > MaxCells {
				if pc.Get(manyKey) == nil {
					pc.Set(manyKey, lines.At(i-1).Start)
				}
				return
			}
			break
		}
	}
	t.ParagraphTransformer.Transform(node, reader, pc)
}

// isDelimiter reports whether a line may be the one of dashes under a table's head.
func isDelimiter(line []byte) bool {
	line = bytes.TrimSpace(line)
	return bytes.IndexByte(line, '-') >= 0 && len(bytes.Trim(line, "-|: \t")) == 0
}
