package message

import "testing"

// TestPhrases wants lists and numbers written as in prose.
func TestPhrases(t *testing.T) {
	many := []string{"a", "b", "c", "d", "e", "f", "g", "h", "i"}
	for _, c := range []struct{ got, want string }{
		{Quote("V"), "`V`"},
		{Join("", "a", "", "b c"), "a; b c"}, {Join(), ""},
		{Enumerate(nil), ""}, {Enumerate(many[:1]), "a"}, {Enumerate(many[:2]), "a and b"}, {Enumerate(many[:3]), "a, b and c"},
		{Each(many[:1]), "a"}, {Each(many[:2]), "each of a and b"},
		{Thousands(999), "999"}, {Thousands(1000), "1,000"}, {Thousands(1_234_567), "1,234,567"},
		{Names(many[:8]), "a, b, c, d, e, f, g, h"}, {Names(many), "a, b, c, d, e, f, g, h, …"},
		{Rows(0), "0 rows"}, {Rows(1), "1 row"}, {Rows(2), "2 rows"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	if many[8] != "i" {
		t.Error("the list that was named is another one now")
	}
}
