package manual

import (
	"strings"
	"testing"

	"inkwing/evaluate/library"
)

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

// TestRecordOf wants a record told by the functions that give one, and by the fields
// that it must have, not by all.
func TestRecordOf(t *testing.T) {
	f, _ := library.Lookup("hand_charge")
	for i, want := range []string{"what generator gives, or a record with emf_constant", "what capacitor or pack or store_at gives, or a record with capacitance [F]"} {
		if got := Need(f.Params[i], f.Params); !strings.HasPrefix(got, want) || strings.Contains(got, "diode_drop") {
			t.Errorf("%s: %q, want %q", f.Params[i].Name, got, want)
		}
	}
}
