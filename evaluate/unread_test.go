package evaluate

import (
	"fmt"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
)

// charge is a sheet with what takes work of its own: a history, and what is seen along it.
const charge = `gen = generator(coil(87, awg(21), 10 mm, 9 mm, 8 mm), 9, 12, emf_constant: 0.05 V·s/rad, phases: 3)
store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
legs = 45 W ± 3 W
gearing = 12
ride = hand_charge(gen, store, 12.5 V, 75 rpm, gearing, power_limit: legs)
top = charge_ceiling(gen, store, 75 rpm, gearing, to: 12 V, power_limit: legs)
all_of(r) = max(r.history.I)
same_ride = ride
late [s] = top.seconds_to_rating`

// TestUnread asks a row for one thing at a time, by all ways that a field can be read: it
// comes to the same as where all is asked for, its interval too.
func TestUnread(t *testing.T) {
	ways := []string{"ride.time", "ride.pulse_torque", "ride.peak_current", "max(ride.history.I)", "ride.history[3].V", "all_of(ride)",
		"same_ride.pulse_torque", "count(ride.history)", "top.ceiling", "top.seconds_to_rating", "late", "2 * top.overcharge_cadence",
		"ride.pulse_torque with legs = 30 W", "hand_charge(gen, store, 12.5 V, 75 rpm, gearing, power_limit: legs).peak_current"}
	sheet := charge + "\nvary gearing in [11, 13]: "
	var names []string
	for i, way := range ways {
		names = append(names, fmt.Sprint("w", i))
		sheet = names[i] + " = " + way + "\n" + sheet
	}
	names = append(names, "ride.pulse_torque", "ride.time", "top.seconds_to_rating")
	text := func(outputs ...string) string { return sheet + strings.Join(outputs, ", ") }
	whole := kit.Clean(t, work(kit.Block("notes.md", text(names...)), nil), "all").Blocks[0].Tables[0]
	for i, way := range names {
		one := kit.Clean(t, work(kit.Block("notes.md", text(way)), nil), way).Blocks[0].Tables[0]
		for r := range one.Values {
			if one.Values[r][1] != whole.Values[r][i+1] || one.Rows[r][1] != whole.Rows[r][i+1] {
				t.Errorf("%s in row %d comes to %v by itself, %v with all", way, r+1, one.Rows[r][1], whole.Rows[r][i+1])
			}
		}
	}
}
