package wire

import "testing"

func TestEscapeControls(t *testing.T) {
	for text, want := range map[string]string{
		"\"µ Ω → 12 V\"\n": "\"µ Ω → 12 V\"\n",
		"\"a\u202eb\"":     `"a\u202eb"`,
		"\"a\u009bb\"":     `"a\u009bb"`,
	} {
		if got := escapeControls(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
