package present_test

import (
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

const woundCoil = "turns = 100\nwound = coil(turns: turns, wire: awg(24), opening: 4 mm, leg: 6 mm, height: 8 mm)\n"

// TestBypass wants the argument named that stands between what is varied and a result,
// and none that follows it, is another call's, or stands beside a row of a table.
func TestBypass(t *testing.T) {
	const given = "gen = generator(wound, coils: 1, poles: 2, emf_constant: 0.05 V·s/rad, diode_drop: 0.3 V)\n"
	const alone = "`emf_constant` of `gen` is given, so `turns` bears on resistance and inductance alone"
	for _, c := range []struct{ name, text, want string }{
		{"varied", woundCoil + given + "vary turns in 60 to 100 by 20: gen.phase_resistance", alone + "."},
		{"tuned", woundCoil + given + "t = tune turns in 60 to 100 by 20 for least gen.phase_resistance", alone},
		{"adjusted", woundCoil + given + "t = adjust turns in 60 to 100 by 1 until gen.phase_resistance >= 0.1 Ω", alone},
		{"under another name", "n = 50\n" + strings.Replace(woundCoil, "= 100", "= 2 * n", 1) + given + "vary n in 40 to 50 by 5: gen.phase_resistance",
			"`emf_constant` of `gen` is given, so `n` through `coil.turns` bears on resistance and inductance alone."},
		{"follows", woundCoil + strings.Replace(given, "0.05", "turns * 0.0005", 1) + "vary turns in 60 to 100 by 20: gen.phase_resistance", ""},
		{"not on the way", woundCoil + given + "vary turns in 60 to 100 by 20: wound.resistance", ""},
		{"not given", woundCoil + "m = magnet_disc(diameter: 20 mm, thickness: 5 mm, remanence: 1.2 T, gap: 12 mm)\n" +
			"gen = generator(wound, coils: 1, poles: 2, magnet: m, radius: 45 mm, gap: 12 mm)\nvary turns in 60 to 100 by 20: gen.phase_resistance", ""},
	} {
		r := kit.Clean(t, evaluate.Work(t.Context(), kit.Block("notes.md", c.text), nil), c.text)
		if got := saidGiven(r); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestBypassTried wants the same word where a value is only tried.
func TestBypassTried(t *testing.T) {
	const text = woundCoil + "gen = generator(wound, coils: 1, poles: 2, emf_constant: 0.05 V·s/rad, diode_drop: 0.3 V)\nR = gen.phase_resistance"
	for change, want := range map[string]string{"turns=80": "`emf_constant` of `gen` is given, so `turns` bears on resistance and inductance alone"} {
		r, problems := evaluate.WorkWith(t.Context(), kit.Block("notes.md", text), nil, []evaluate.Change{{Text: change}})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if got := strings.Join(r.Bypassed, "; "); got != want {
			t.Errorf("%s: %q", change, got)
		}
	}
}

// saidGiven is what a report's studies say of arguments that are given.
func saidGiven(r *report.Report) string {
	for _, t := range r.Blocks[0].Tables {
		for _, n := range t.Notes {
			if strings.Contains(n, "is given") {
				return n
			}
		}
	}
	for _, q := range r.Blocks[0].Rows {
		for part := range strings.SplitSeq(q.Note, "; ") {
			if strings.Contains(part, "is given") {
				return part
			}
		}
	}
	return ""
}
