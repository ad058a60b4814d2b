package message

import "testing"

// TestWords keeps what is a symbol with an index.
func TestWords(t *testing.T) {
	for name, want := range map[string]string{
		"powered_time": "powered time", "calm.control_margin": "calm.control margin", "journal_t_charge": "journal_t_charge",
		"V_full": "V_full", "t_charge": "t_charge", "CD0_flown": "CD0_flown", "R_lead": "R_lead", "E": "E", "η_max": "η_max", "": "", "row_1": "row_1",
	} {
		if got := Words(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}
