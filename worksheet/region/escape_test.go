package region

import (
	"regexp"
	"testing"
)

// FuzzNameSize holds what counts as a name against its pattern.
func FuzzNameSize(f *testing.F) {
	name := regexp.MustCompile(`^[\p{L}\p{M}\p{N}_]+(?:\.[\p{L}\p{M}\p{N}_]+)*`)
	for _, text := range []string{"", "a", "store.mass is", "a..b", "a.", ".a", "_x.ü²", "Ω_1.é́", "1.5 V", "x\xff_y", "²"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if got, want := nameSize(text), len(name.FindString(text)); got != want {
			t.Errorf("%q: %d, want %d", text, got, want)
		}
		again := clean(text)
		if isClean(text) && text != again || clean(again) != again {
			t.Errorf("%q is cleaned to %q", text, again)
		}
	})
}
