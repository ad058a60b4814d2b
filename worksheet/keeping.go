//go:build !lean

package worksheet

import (
	"errors"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/rules"
)

// Rules reads the rules that a page asks of journals, and says which of them
// cannot be read. The error says that the page holds none.
func Rules(path string, text []byte) (list []*rules.Rule, problems []message.Diagnostic, err error) {
	if len(text) > MaxFile {
		return nil, []message.Diagnostic{tooLarge(path)}, nil
	}
	doc := markdown.Parse(path, text)
	if len(doc.Refused) > 0 {
		return nil, doc.Refused, nil
	}
	var blocks [][]syntax.Line
	for _, b := range doc.Blocks {
		if b.Word == markdown.Keeping {
			blocks = append(blocks, b.Lines)
		}
	}
	list, problems = rules.ReadPage(path, blocks)
	if len(list)+len(problems) == 0 {
		err = errors.New("holds no rules")
	}
	return list, problems, err
}

// Journal gives the rows of what a file came to, under the name that people call
// it by; nil where nothing was worked.
func (r *Result) Journal(name string) *rules.Journal {
	if r.Report == nil {
		return nil
	}
	return rules.NewJournal(name, r.Report, r.Source)
}
