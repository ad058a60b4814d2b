package syntax

import (
	"strings"
	"testing"

	"github.com/alecthomas/participle/v2/lexer"
)

// FuzzScan reads any line as tokens: it never panics, the tokens stand in the
// line, one behind the other, and the last is the end.
func FuzzScan(f *testing.F) {
	for _, seed := range []string{
		"a [V] = 12 V ± 0.1 V # note", "x = 1/2 V", "12V", "1,5", "90° + 3 m/s²", `t = "a\"b`, "µ Ω Ω ± ≤ \u202e", "4. .5 1e", "с = 3",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if strings.ContainsAny(text, "\n\r") {
			return
		}
		s := scan("notes.md", []Line{{Text: text}}, nil)
		at := 0
		for i, token := range s.tokens.list {
			last := i == len(s.tokens.list)-1
			if (token.Type == lexer.EOF) != last {
				t.Fatalf("token %d of %d is %v", i, len(s.tokens.list), token)
			}
			if token.Pos.Offset < at || token.Pos.Offset > len(text) {
				t.Fatalf("token %v at %d, after %d, of %d bytes", token, token.Pos.Offset, at, len(text))
			}
			at = token.Pos.Offset
		}
	})
}
