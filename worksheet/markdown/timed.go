package markdown

import (
	"context"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// The library that reads Markdown cannot be stopped. What it asks us at each line and
// at each tick or angle bracket leaves it by a panic when the time is up.

// outOfTime is that panic.
type outOfTime struct{}

// timeKey holds the context that a text is read within.
var timeKey = parser.NewContextKey()

// parsedWithin is the tree of a text, nil where the context was done before.
func parsedWithin(ctx context.Context, source []byte, pc parser.Context) (tree ast.Node) {
	defer func() {
		switch r := recover().(type) {
		case nil:
		case outOfTime:
			tree = nil
		default:
			panic(r)
		}
	}()
	pc.Set(timeKey, ctx)
	return newParser().Parse(timedReader{text.NewReader(source), ctx}, parser.WithContext(pc))
}

func mindTime(ctx context.Context) {
	if ctx.Err() != nil {
		panic(outOfTime{})
	}
}

// A timedReader minds the time at each line.
type timedReader struct {
	text.Reader
	ctx context.Context
}

func (r timedReader) AdvanceLine() {
	mindTime(r.ctx)
	r.Reader.AdvanceLine()
}

// timedInline minds the time wherever its parser might find something.
type timedInline struct{ parser.InlineParser }

func (p timedInline) Parse(parent ast.Node, block text.Reader, pc parser.Context) ast.Node {
	mindTime(pc.Get(timeKey).(context.Context))
	return p.InlineParser.Parse(parent, block, pc)
}
