package flight

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

func lapwingGo() GoVoltageInput {
	f := lapwingFlight()
	return GoVoltageInput{Aloft: f.Aloft, Height: 50, Margin: 30, ClimbRate: 1, Aboard: f.Aboard, Settled: Settled{1}}
}

// The independent route: the flight from the voltage found reaches the height
// with what was wanted left, and from a little less it does not.
func TestGoVoltage(t *testing.T) {
	seen := map[string]bool{}
	for _, kind := range []string{"linear", "switching"} {
		for _, row := range []struct{ height, margin, rate, cutOff float64 }{
			{50, 30, 1, 5.5}, {20, 0, 0.5, 7}, {100, 120, 1.5, 5}, {30, 0, 3, 4.6}, {80, 30, 2, 5},
		} {
			in := lapwingGo()
			radio := *in.Radio
			radio.Kind = kind
			in.Radio, in.Height, in.Margin, in.ClimbRate, in.CutOff = &radio, row.height, row.margin, row.rate, &row.cutOff
			got := kit.Must(GoVoltage(t.Context(), in))(t)
			seen[got.LimitedBy] = true
			fly := func(v float64) FlightResult {
				return kit.Must(Flight(t.Context(), FlightInput{Aloft: in.Aloft, Plan: []Phase{climbing(row.rate, row.height)}, StartVoltage: v, Aboard: in.Aboard}))(t)
			}
			enough, short := fly(got.Voltage*(1+1e-6)), fly(got.Voltage*(1-1e-4))
			kit.Near(t, "voltage at the top", enough.StopVoltage, got.TopVoltage, 1e-5)
			kit.Near(t, "time of the climb", enough.PoweredTime, got.ClimbTime, 1e-5)
			kit.Near(t, "control margin", *enough.ControlMargin, *got.ControlMargin, 1e-3)
			if enough.Ended != "end of the plan" || *enough.ControlMargin < row.margin {
				t.Errorf("%v: from %g V ended by %s with %g s left", row, got.Voltage, enough.Ended, *enough.ControlMargin)
			}
			slow := false
			for _, e := range short.Events {
				slow = slow || e.What == "full throttle"
			}
			if short.Ended != "cut-off" && *short.ControlMargin >= row.margin && !slow {
				t.Errorf("%v, limited by %s: a little less would do", row, got.LimitedBy)
			}
		}
	}
	for _, by := range []string{"cut-off", "full throttle", "radio"} {
		if !seen[by] {
			t.Errorf("no row is limited by %s", by)
		}
	}
}

func TestGoVoltageMonotone(t *testing.T) {
	last := 0.0
	for h := 10.0; h <= 120; h += 10 {
		in := lapwingGo()
		in.Height = h
		got := kit.Must(GoVoltage(t.Context(), in))(t)
		if got.Voltage <= last {
			t.Errorf("%g m wants no more than less", h)
		}
		last = got.Voltage
	}
	in := lapwingGo()
	in.Height = 400
	got := kit.Must(GoVoltage(t.Context(), in))(t)
	if !kit.Raised(got.List, "go-voltage-over-rating") || !kit.Raised(got.List, "height-over-ceiling") {
		t.Errorf("400 m at %g V goes uncautioned", got.Voltage)
	}
}

func TestGoVoltageRefuses(t *testing.T) {
	for field, spoil := range map[string]func(*GoVoltageInput){
		"height":            func(in *GoVoltageInput) { in.Height = 1 },
		"margin":            func(in *GoVoltageInput) { in.Margin = -1 },
		"climb_rate":        func(in *GoVoltageInput) { in.ClimbRate = 9 },
		"CL":                func(in *GoVoltageInput) { in.CL = new(2.0) },
		"cut_off":           func(in *GoVoltageInput) { in.CutOff = nil },
		"glide_CL":          func(in *GoVoltageInput) { in.GlideCL = new(2.0) },
		"store.capacitance": func(in *GoVoltageInput) { in.Store.Capacitance = -1 },
		"store": func(in *GoVoltageInput) {
			in.Store.LeakageResistance = new(1e-3) // the leak outruns any charge
		},
	} {
		in := lapwingGo()
		spoil(&in)
		_, err := GoVoltage(t.Context(), in)
		kit.Refuses(t, err, field)
	}
}

func TestCutOffChoice(t *testing.T) {
	f := lapwingFlight()
	in := CutOffChoiceInput{Aloft: f.Aloft, Plan: f.Plan, StartVoltage: 12.4, From: 4.6, To: 6.4, Steps: 6, Margin: 30, Home: f.Home}
	got := kit.Must(CutOffChoice(t.Context(), in))(t)
	for i, row := range got.Rows {
		f.CutOff = &row.CutOff
		one := kit.Must(Flight(t.Context(), f))(t)
		kit.Near(t, "powered time", row.PoweredTime, one.PoweredTime, 0)
		kit.Near(t, "given and stranded", one.Given+row.Stranded, 20*12.4*12.4/2, 1e-12)
		if *row.ControlMargin >= 30 != (row.CutOff >= *got.Lowest) {
			t.Errorf("%g V leaves %g s, the lowest that serves is %g V", row.CutOff, *row.ControlMargin, *got.Lowest)
		}
		if i > 0 && (row.PoweredTime >= got.Rows[i-1].PoweredTime || row.Stranded <= got.Rows[i-1].Stranded || *row.ControlTime <= *got.Rows[i-1].ControlTime) {
			t.Errorf("a higher cut-off does not shorten the flight: %+v", row)
		}
	}
	in.RadioMinimum = new(6.3)
	got = kit.Must(CutOffChoice(t.Context(), in))(t)
	if got.Lowest != nil || !kit.Raised(got.List, "no-cut-off-serves") {
		t.Errorf("none of the cut-offs serves, but %v", got.Lowest)
	}
	in.To = 13
	_, err := CutOffChoice(t.Context(), in)
	kit.Refuses(t, err, "to")
	in.To = 4
	_, err = CutOffChoice(t.Context(), in)
	kit.Refuses(t, err, "to")
	in.From = -1
	_, err = CutOffChoice(t.Context(), in)
	kit.Refuses(t, err, "from")
}

func BenchmarkGoVoltage(b *testing.B) {
	b.ReportAllocs()
	in := lapwingGo()
	for b.Loop() {
		if _, err := GoVoltage(b.Context(), in); err != nil {
			b.Fatal(err)
		}
	}
}

// TestCutOffPublished: a store that stops at half of its voltage has given three
// quarters of its energy (makers' application guides, from memory). The motor
// stops at the pack's terminals; what counts is where the pack rebounds to.
func TestCutOffPublished(t *testing.T) {
	f := lapwingFlight()
	in := CutOffChoiceInput{Aloft: f.Aloft, Plan: f.Plan, StartVoltage: 12.4, From: 5.9, To: 6.2, Steps: 60, Margin: 30, Home: f.Home}
	rows := kit.Must(CutOffChoice(t.Context(), in))(t).Rows
	low, high := rows[0].StrandedShare, rows[len(rows)-1].StrandedShare
	if !(low < 0.25 && high > 0.25) {
		t.Fatalf("shares from %g to %g", low, high)
	}
	for _, row := range rows {
		if rebound := math.Sqrt(2 * row.Stranded / in.Store.Capacitance); rebound >= 6.2 != (row.StrandedShare >= 0.25) {
			t.Errorf("rested at %g V of 12.4 V it has %g of its energy left", rebound, row.StrandedShare)
		}
	}
}

// Over the weakest cell's voltage, and over the rating, it says so, with how far.
func TestGoVoltageOverSafe(t *testing.T) {
	in := lapwingGo()
	in.Store.RatedVoltage = nil
	needs := kit.Must(GoVoltage(t.Context(), in))(t).Voltage
	for _, c := range []struct{ rated, safe, over float64 }{{needs + 1, needs + 0.5, 0}, {needs + 1, needs - 0.1, 1}, {needs - 0.01, needs - 0.1, 2}} {
		in.Store.RatedVoltage, in.Store.SafeVoltage = &c.rated, &c.safe
		got := kit.Must(GoVoltage(t.Context(), in))(t)
		if kit.Raised(got.List, "launch-over-safe") != (c.over == 1) || kit.Raised(got.List, "go-voltage-over-rating") != (c.over == 2) {
			t.Errorf("rated %g V, safe %g V, needed %g V: %v", c.rated, c.safe, needs, got.List)
		}
		for _, x := range got.List {
			if x.ID == "go-voltage-over-rating" {
				kit.Near(t, "by how much", x.Values[2].Number, 0.01, 1e-9)
			}
		}
		f := lapwingFlight()
		f.Store, f.StartVoltage = in.Store, needs
		flown := kit.Must(Flight(t.Context(), f))(t)
		if kit.Raised(flown.List, "launch-over-safe") != (c.over == 1) || kit.Raised(flown.List, "launch-over-rating") != (c.over == 2) {
			t.Errorf("rated %g V, safe %g V, launched at %g V: %v", c.rated, c.safe, needs, flown.List)
		}
	}
}

// A radio's time reads long by the capacitance at low voltage, and a receiver
// has a failsafe to set: both where there is a radio, and nowhere else.
func TestRadioCautions(t *testing.T) {
	in := lapwingFlight()
	for _, id := range []string{"control-time-reads-long", "failsafe"} {
		if got := kit.Must(Flight(t.Context(), in))(t); !kit.Raised(got.List, id) {
			t.Errorf("no %s in a flight", id)
		}
		if got := kit.Must(GoVoltage(t.Context(), lapwingGo()))(t); !kit.Raised(got.List, id) {
			t.Errorf("no %s with go_voltage", id)
		}
		free := in
		free.Radio = nil
		if got := kit.Must(Flight(t.Context(), free))(t); kit.Raised(got.List, id) {
			t.Errorf("%s without a radio", id)
		}
		choice := CutOffChoiceInput{Aloft: in.Aloft, Plan: in.Plan, StartVoltage: 12.4, From: 5, To: 6, Steps: 1, Home: in.Home}
		if got := kit.Must(CutOffChoice(t.Context(), choice))(t); !kit.Raised(got.List, id) {
			t.Errorf("no %s with cut_off_choice", id)
		}
	}
}

// The share by which the radio's time reads long, by quadrature: a string of six
// whose cells hold 24 % more at half of their rating than at a sixteenth, flat
// above it, against the standard's mean capacitance from 0.8 to 0.4 of it.
func TestControlTimeReadsLong(t *testing.T) {
	low, half := 1/1.24, 1.0
	at := func(v float64) float64 { return min(low+(half-low)*(v-0.0625)/(0.5-0.0625), half) }
	mean := quad.Fixed(at, 0.4, 0.8, 64, nil, 0) / 0.4 // of the rating
	// From the cut-off 5.5 V to the radio's minimum 4.5 V on 16.2 V.
	held := quad.Fixed(at, 4.5/16.2, 5.5/16.2, 64, nil, 0) / (1 / 16.2)
	if long := mean/held - 1; long < 0.07 || long > 0.12 {
		t.Errorf("%g long, told 7 %% to 12 %%", long)
	}
}
