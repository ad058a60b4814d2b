package explain

import "testing"

// TestPutLetters wants the values in the place of whole letters, in brackets below a line and
// under a power, and the left side of an equation left alone.
func TestPutLetters(t *testing.T) {
	for _, c := range []struct {
		formula string
		letters map[string]string
		want    string
	}{
		{"E = C·V²/2.", map[string]string{"C": "20 F", "V": "12.5 V"}, "E = 20 F·(12.5 V)²/2."},
		{"R = R1·ns/np", map[string]string{"R1": "10 mΩ", "ns": "5", "np": "1", "R": "9 Ω"}, "R = 10 mΩ·5/1"},
		{"I = ΔU/R; V = I·R", map[string]string{"R": "2 Ω", "V": "1 V"}, "I = ΔU/(2 Ω); V = I·2 Ω"},
		{"x^2 + y^2", map[string]string{"x": "-3", "y": "2"}, "(-3)^2 + 2^2"},
		{"those of another", map[string]string{"V": "1 V"}, ""},
	} {
		if got := putIn(c.formula, c.letters); got != c.want {
			t.Errorf("%s: %s, want %s", c.formula, got, c.want)
		}
	}
}
