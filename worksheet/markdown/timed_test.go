package markdown

import (
	"context"
	"strings"
	"testing"
)

// A countdown is done once it has been asked so often.
type countdown struct {
	context.Context
	left, asked int
}

func (c *countdown) Err() error {
	c.asked++
	if c.left--; c.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// TestReadWithin reads texts of a thousand parts of each kind until the time is up: it
// is looked at once a part at the least, and nothing is looked at behind that.
func TestReadWithin(t *testing.T) {
	const parts = 1000
	for name, part := range map[string]string{
		"paragraph": "text\n", "list": "- text\n", "deep list": "- - - text\n", "quote": "> text\n", "headings": "# text\n", "rules": "***\n",
		"definitions": "[a]: b\n", "code": "    code\n", "fences": "```working\na = 1\n```\n", "one fence": "a = 1\n", "table": "| a |\n",
		"spans of a line": "`a [V] = 1 V` ", "angles of a line": "<a> ",
	} {
		head := "```working\na = 1 V\n```\n\n"
		switch name {
		case "one fence":
			head = "```working\n"
		case "table":
			head += "| a |\n|---|\n"
		}
		text := []byte(head + strings.Repeat(part, parts))
		full := &countdown{t.Context(), 1 << 30, 0}
		ParseWithin(full, "notes.md", text)
		if full.asked < parts {
			t.Errorf("%s: asked %d times", name, full.asked)
		}
		for _, k := range []int{0, 1, 17, full.asked / 2, full.asked - 1} {
			ctx := &countdown{t.Context(), k, 0}
			d := ParseWithin(ctx, "notes.md", text)
			if !d.Unread || len(d.Refused) != 1 || ctx.asked != k+1 {
				t.Errorf("%s, time for %d: unread %v, refused %v, asked %d times", name, k, d.Unread, d.Refused, ctx.asked)
			}
		}
	}
}
