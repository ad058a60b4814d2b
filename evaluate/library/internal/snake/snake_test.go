package snake

import "testing"

func TestCase(t *testing.T) {
	for name, want := range map[string]string{
		"HoldUpTime": "hold_up_time", "RCTime": "rc_time", "Log10": "log10", "Atan2": "atan2",
		"X": "x", "CL": "cl", "CLMax": "cl_max", "Wh": "wh", "ResistanceAt20C": "resistance_at20_c", "": "",
	} {
		if got := Case(name); got != want {
			t.Errorf("Case(%q) = %q, want %q", name, got, want)
		}
	}
}
