package worksheet

import (
	"context"
	"errors"
	"fmt"
	"path"
	"regexp"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/worksheet/markdown"
)

// loader gives evaluate the files that a sheet uses.
type loader struct {
	ctx    context.Context // of the one run that files are loaded for
	files  Files
	read   map[string][]byte // what was read, by its path; nil if nobody asks
	loaded map[string]loaded // by path: a file that is used often is read once
	cells  int               // of all data files so far
	bytes  int               // of all files so far
}

// A loaded is what a file came to.
type loaded struct {
	sheet *sheet.Sheet
	err   error
}

// newLoader gives what sheets use; read takes up what was read, nil if nobody asks.
func newLoader(ctx context.Context, files Files, read map[string][]byte) *loader {
	return &loader{ctx: ctx, files: files, read: read, loaded: map[string]loaded{}}
}

// Load reads a worksheet or a CSV file. The path is relative to the using file.
func (l *loader) Load(from, use string) (*sheet.Sheet, error) {
	name, err := resolve(from, use)
	if err != nil {
		return nil, err
	}
	if known, ok := l.loaded[name]; ok {
		return known.sheet, known.err
	}
	s, err := l.file(name)
	l.loaded[name] = loaded{s, err}
	return s, err
}

// file reads what lies at a path from the root.
func (l *loader) file(name string) (*sheet.Sheet, error) {
	if l.cells > MaxCells || l.bytes > maxUsed {
		return nil, tooMuchUsed()
	}
	text, err := l.files.Read(name)
	if err != nil {
		return nil, err
	}
	if l.bytes += len(text); l.bytes > maxUsed {
		return nil, tooMuchUsed()
	}
	if l.read != nil {
		l.read[name] = text
	}
	if len(text) > MaxFile {
		return nil, fmt.Errorf("is larger than %d MiB", MaxFile>>20)
	}
	if strings.EqualFold(path.Ext(name), ".csv") {
		return l.data(name, text)
	}
	doc := markdown.ParseWithin(l.ctx, name, text)
	if len(doc.Refused) > 0 {
		return nil, refusal(doc.Refused[0], text)
	}
	if refused := tooMuchOf(doc); len(refused) > 0 {
		return nil, refusal(refused[0], text)
	}
	if !doc.Works() && len(doc.Tables) == 0 {
		return nil, errors.New("holds no working block and no table with a name" + dataHint(name))
	}
	return doc.Sheet(), nil
}

// data reads a CSV file, as long as all of them together are not too much.
func (l *loader) data(name string, text []byte) (*sheet.Sheet, error) {
	s, err := csvSheet(name, text)
	if err != nil {
		return nil, err
	}
	t := s.Tables[0]
	if l.cells += len(t.Head) * (1 + len(t.Rows)); l.cells > MaxCells {
		return nil, tooMuchUsed()
	}
	return s, nil
}

// maxUsed is how many bytes all files may have that a page uses.
const maxUsed = 4 * MaxFile

func tooMuchUsed() error {
	return fmt.Errorf("is too much: with it, the files in use have more than %d cells or %d MiB; leave out the columns and rows that nothing uses", MaxCells, maxUsed>>20)
}

// dataHint is what may be meant by a file that is neither a worksheet nor data.
func dataHint(name string) string {
	if ext := path.Ext(name); !strings.EqualFold(ext, ".md") {
		return "; a worksheet ends in .md, a table of data in .csv, and this in " + ext
	}
	return ""
}

var drive = regexp.MustCompile(`^[A-Za-z]:`)

// resolve is the path from the run's root of a file that another one uses.
// Nothing above the root can be named, and nothing that only some systems
// understand.
func resolve(from, use string) (string, error) {
	switch {
	case use == "":
		return "", errors.New("is empty: name a file")
	case strings.ContainsRune(use, 0):
		return "", errors.New("holds a zero byte")
	case strings.Contains(use, `\`):
		return "", errors.New("is written with backslashes: write / between folders")
	case path.IsAbs(use), drive.MatchString(use):
		return "", errors.New("is absolute: write it from the folder of the file that uses it")
	}
	name := path.Join(path.Dir(from), use)
	if name == ".." || strings.HasPrefix(name, "../") {
		return "", errors.New("leads out of the folder that the run may read")
	}
	return name, nil
}

// refusal is a used file's first fault as an error, with its line.
func refusal(d message.Diagnostic, text []byte) error {
	line := 1 + strings.Count(string(text[:d.Span.Start]), "\n")
	return fmt.Errorf("cannot be used: its line %d: %s", line, d.Summary)
}
