package manual

import "testing"

func TestRangeWords(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "[0,)": "0 or more", "(0,)": "more than 0", "(,5]": "5 or less", "[0,1]": "0 to 1",
		"(0,1)": "more than 0, less than 1", "[0,1)": "0 or more, less than 1",
	} {
		if got := rangeWords(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
