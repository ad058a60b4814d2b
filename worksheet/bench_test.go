package worksheet

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"inkwing/worksheet/markdown"
)

// prose is a journal without working blocks, of about that many bytes.
func prose(size int) []byte {
	part := "## A day at the field\n\nThe wind was light, so the *Lapwing* went up at ten; `n = 5` still, and\nworking on the strap took until noon.\n\n- one flight\n- and [another](x.md)\n\n```go\nfmt.Println()\n```\n\n| a | b |\n| --- | --- |\n| 1 | 2 |\n\n"
	return []byte(strings.Repeat(part, size/len(part)+1)[:size])
}

// notes is a journal with a block of statements in each part.
func notes(size, statements int) []byte {
	var out bytes.Buffer
	blocks := statements / 10
	for b := range blocks {
		out.Write(prose(size/blocks - 10*24))
		out.WriteString("\n\n```working\n")
		for i := range 10 {
			fmt.Fprintf(&out, "row q_%d_%d | %d.5 V\n", b, i, i)
		}
		fmt.Fprintf(&out, "```\n\nSo `q_%d_1 [V] = …` it is.\n\n", b)
	}
	return out.Bytes()
}

func bench(b *testing.B, text []byte, f func()) {
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		f()
	}
}

func BenchmarkNoBlock(b *testing.B) {
	plain := prose(100_000)
	b.Run("run", func(b *testing.B) { bench(b, plain, func() { scripted.run(b.Context(), nil, "a.md", plain) }) })
	// A fence of ours inside another makes the whole file be parsed, and all in vain.
	feigned := append([]byte("````\n"+one+"````\n\n"), plain...)
	b.Run("feigned", func(b *testing.B) { bench(b, feigned, func() { scripted.run(b.Context(), nil, "a.md", feigned) }) })
	blocks := parser.NewParser(parser.WithBlockParsers(parser.DefaultBlockParsers()...),
		parser.WithParagraphTransformers(parser.DefaultParagraphTransformers()...))
	b.Run("goldmark's blocks", func(b *testing.B) { bench(b, plain, func() { blocks.Parse(text.NewReader(plain)) }) })
}

func BenchmarkWork(b *testing.B) {
	for _, c := range []struct {
		name             string
		size, statements int
	}{{"5 KB", 5_000, 30}, {"500 KB", 500_000, 1_000}, {"1 MB", 1_000_000, 2_000}} {
		fresh := notes(c.size, c.statements)
		stale := works(b, "a.md", fresh).Output
		b.Run(c.name+" first run", func(b *testing.B) { bench(b, fresh, func() { scripted.run(b.Context(), nil, "a.md", fresh) }) })
		b.Run(c.name+" nothing to do", func(b *testing.B) { bench(b, stale, func() { scripted.run(b.Context(), nil, "a.md", stale) }) })
		b.Run(c.name+" parse", func(b *testing.B) { bench(b, stale, func() { markdown.Parse("a.md", stale) }) })
	}
}
