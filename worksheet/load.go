package worksheet

import (
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
	files Files
	read  map[string][]byte // what was read, by its path; nil if nobody asks
}

// Load reads a worksheet or a CSV file. The path is relative to the using file.
func (l *loader) Load(from, use string) (*sheet.Sheet, error) {
	name, err := resolve(from, use)
	if err != nil {
		return nil, err
	}
	text, err := l.files.Read(name)
	if err != nil {
		return nil, err
	}
	if l.read != nil {
		l.read[name] = text
	}
	if len(text) > MaxFile {
		return nil, fmt.Errorf("is larger than %d MiB", MaxFile>>20)
	}
	if strings.EqualFold(path.Ext(name), ".csv") {
		return csvSheet(name, text)
	}
	doc := markdown.Parse(name, text)
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
