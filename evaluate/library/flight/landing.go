package flight

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/model"
)

// controlTime is how long radio and leak take from one rested voltage until
// the terminals are at least; +Inf if they take nothing. All of it is a
// function of the voltage, so the time is a quadrature over it.
func (k *circuit) controlTime(from, slow, least float64) float64 {
	return k.drain(from, slow, least+(k.radioCurrent+k.radioPower/least)*k.store.Resistance)
}

// drain is the time between two rested voltages, the slow branch of a store at its own
// at first.
func (k *circuit) drain(from, slow, end float64) float64 {
	if from <= end {
		return 0
	}
	if k.radioCurrent+k.radioPower+k.store.leak(from) == 0 {
		return math.Inf(1)
	}
	if k.law.Lags() {
		return k.drainBoth(from, slow, end)
	}
	return quad.Fixed(func(v float64) float64 {
		_, radio := k.terminal(v, 0, 0)
		return k.law.At(v) / (radio + k.store.leak(v))
	}, end, from, 24, nil, 0)
}

// stopped is what there is to say when the motor has stopped.
func (c *course) stopped(k *circuit, out *FlightResult) {
	out.PoweredTime, out.Ended = c.off-c.rested, c.ended
	out.StopVoltage, out.StopHeight = c.then[yVoltage], max(c.then[yHeight], 0)
	if k.least > 0 {
		t := k.controlTime(out.StopVoltage, k.slow(c.then), k.least) // infinite without a load: model.Never
		out.ControlTime = &t
	}
	y, s := c.then, &out.FlightSum
	s.Given, s.Settling = k.given(c.in, y)
	s.Radio, s.StoreLoss, s.Leads, s.SpeedControl = y[yRadio], y[ySource], y[yLeads], y[yControl]
	s.Copper, s.Idle, s.Gear = y[yCopper], y[yIdle], y[yGear]
	s.PropellerLoss, s.Drag, s.Leakage = y[yPropeller], y[yDrag], y[yLeak]
	s.HeightEnergy = c.in.Airframe.Weight() * (y[yHeight] - c.in.LaunchHeight)
}

// land glides down.
func (c *course) land(ctx context.Context, k *circuit, out *FlightResult) error {
	if c.y[yHeight] > 0 {
		l := &leg{circuit: k}
		l.trim(c.plane, c.glide)
		if _, err := c.fly(ctx, l, c.t+forever, nil); err != nil {
			return err
		}
		c.y[yHeight] = 0 // but for rounding
		c.note(c.t, c.y, 0, "touchdown")
	}
	out.TotalTime, out.GlideTime = c.t, c.t-c.off
	out.LandingVoltage, out.Range = c.y[yVoltage], c.y[yRange]
	if out.ControlTime != nil {
		margin := *out.ControlTime - out.GlideTime
		out.ControlMargin = &margin
	}
	return nil
}

// flightRows is about how many rows a history has, beside the ends of legs.
const flightRows = 40

// answer draws up the events.
func (c *course) answer(out *FlightResult) {
	slices.SortStableFunc(c.events, func(a, b FlightEvent) int { return cmp.Compare(a.Time, b.Time) })
	out.Events = c.events
}

// look goes along a flight and notes what it sees.
func (c *course) look(out *FlightResult) {
	step := c.t / flightRows
	y := make([]float64, len(c.y))
	for i := range c.legs {
		l := &c.legs[i]
		parts := max(1, int(math.Round((l.to-l.from)/step)))
		for p := range parts {
			t := l.from + (l.to-l.from)*float64(p)/float64(parts)
			if l.path.At(t, y) {
				out.History = append(out.History, l.row(t, y))
			}
		}
		out.History = append(out.History, l.row(l.to, l.end))
	}
	out.TopHeight = c.in.LaunchHeight
	for _, r := range out.History {
		out.TopHeight, out.PeakCurrent = max(out.TopHeight, r.Height), max(out.PeakCurrent, r.Current)
	}
	for _, e := range out.Events {
		out.TopHeight = max(out.TopHeight, e.Height)
	}
}

func (l *flown) row(t float64, y []float64) FlightRow {
	if f, ok := l.path.(*fall); ok {
		return f.row(t, y)
	}
	m := l.at(y[yVoltage])
	return FlightRow{Time: t, Phase: l.phase, Voltage: y[yVoltage], TerminalVoltage: m.terminal, Current: m.pack + m.radio,
		Throttle: m.throttle, Height: max(y[yHeight], 0), ClimbRate: m.climb(), Airspeed: m.speed}
}

// caution raises what the flight gives cause for.
func (c *course) caution(k *circuit, out *FlightResult) {
	list := &out.Cautions
	worst := drive.Working{TerminalVoltage: math.Inf(1)}
	open, sink := 1.0, 0.0
	for _, l := range c.legs {
		if l.task == rest {
			continue
		}
		for _, v := range []float64{l.first, l.end[yVoltage]} { // all falls or rises from end to end
			m := l.at(v)
			worst.MotorCurrent = max(worst.MotorCurrent, m.motor)
			worst.TerminalVoltage = min(worst.TerminalVoltage, m.terminal)
			open, sink = min(open, m.throttle), min(sink, m.climb())
		}
		glide.AtStall(list, l.cl, l.plane.CLMax)
	}
	if !math.IsInf(worst.TerminalVoltage, 0) {
		c.in.Drive.Caution(list, worst, drive.Conditions{Throttle: open})
	}
	sinking(list, sink)
	glide.AtStall(list, c.glide, c.plane.CLMax)
	c.blownBack(list)
	if out.ControlTime != nil && k.store.Plain() {
		controlReadsLong(list)
	}
	if k.store.Resistance == 0 {
		noSag(list)
	}
	if c.in.Radio != nil {
		failsafe(list)
	}
	c.overRating(list)
	c.overCurrent(list, out.PeakCurrent)
	c.missed(list)
	glide.OverCeiling(list, out.TopHeight)
	c.radioFails(list, k.least, worst.TerminalVoltage, out)
	glide.Flying(list)
}

func (c *course) overRating(list *model.Cautions) {
	rated := c.in.Store.RatedVoltage
	if rated == nil || c.in.StartVoltage <= *rated {
		overSafe(list, c.in.StartVoltage, c.in.Store.SafeVoltage)
		return
	}
	list.Raise(model.Caution{ID: "launch-over-rating", Level: model.Danger,
		Summary: "The flight begins at {0}, {2} above the rating of {1}.",
		Values:  []model.Value{model.In(c.in.StartVoltage, "V"), model.In(*rated, "V"), model.In(c.in.StartVoltage-*rated, "V")},
		Why:     "That is the pack's. A cell past its rating ages within hours, gives off gas and may burst.",
		Hint:    "Charge no higher than the rating.", Source: "application guides of capacitor makers"})
}

// overSafe warns of a voltage at which the weakest cell may pass its rating.
func overSafe(list *model.Cautions, voltage float64, safe *float64) {
	if safe == nil || voltage <= *safe {
		return
	}
	list.Raise(model.Caution{ID: "launch-over-safe", Level: model.Danger,
		Summary: "At {0} the weakest cell may pass its rating, from {1} on.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(*safe, "V")},
		Why:     "By its tolerance, 20 % unless given: all cells of a string take the same charge, so the smallest rises highest.",
		Hint:    "Charge lower, or match the cells.", Source: "application guides of capacitor makers"})
}

// controlReadsLong says which way the radio's time is off. The share is that of
// strings of six whose capacitance rises by a quarter from a sixteenth to half
// of the rating, flat or rising above it.
func controlReadsLong(list *model.Cautions) {
	list.Raise(model.Caution{ID: "control-time-reads-long", Level: model.Warning, Standing: true,
		Summary: "The radio's time reads {0} to {1} long.",
		Values:  []model.Value{model.In(7, "%"), model.In(12, "%")},
		Why:     "That is its time after the motor: cells hold less low down, while capacitance is worked as constant. Keep that much more margin.",
		Hint:    "Keep more margin, or give capacitance_slope.", Source: "Gilabert-Torres et al., four 58 F cells (abstract seen)"})
}

// noSag says of a flight on a pack of no known resistance what that leaves out.
func noSag(list *model.Cautions) {
	list.Raise(model.Caution{ID: "no-sag-under-load", Level: model.Advice, Standing: true,
		Summary: "The pack's resistance is not given: its terminals do not sag here.",
		Why:     "In the air they do, by the current times the resistance, so that motor and radio give up sooner than this says.",
		Hint:    "Take the maker's, or measure it.",
		Source:  "Ohm's law; common practice"})
}

// failsafe is the standing hazard of a model with a motor and a radio.
func failsafe(list *model.Cautions) {
	list.Raise(model.Caution{ID: "failsafe", Level: model.Danger, Standing: true,
		Summary: "Without signal the motor may run on.",
		Why:     "A model that flies on by itself ends where nobody chose. Test the range before flying, too.",
		Hint:    "Set failsafe to motor off; test it.", Source: "common practice"})
}

// blownBack warns of a headwind that carries the model back on the way.
func (c *course) blownBack(list *model.Cautions) {
	slowest := math.Inf(1)
	for _, l := range c.legs {
		for _, v := range []float64{l.first, l.end[yVoltage]} {
			m := l.at(v)
			slowest = min(slowest, m.speed*math.Cos(m.angle)+c.in.Wind)
		}
	}
	glide.BlownBack(list, slowest, c.in.Wind)
}

// overCurrent warns of more than makers let a cell carry for moments: what
// takes it from its rating to half of that in a second.
func (c *course) overCurrent(list *model.Cautions, peak float64) {
	store := c.in.Store
	if store.RatedVoltage == nil {
		return
	}
	bound := 0.5 * store.Capacitance * *store.RatedVoltage / (store.Resistance*store.Capacitance + 1)
	if peak <= bound {
		return
	}
	list.Raise(model.Caution{ID: "pack-over-current", Level: model.Warning,
		Summary: "The pack gives {0}; makers commonly allow {1}.",
		Values:  []model.Value{model.In(peak, "A"), model.In(bound, "A")},
		Why:     "They allow it for moments: that current takes cells from their rating to half of it in a second; beyond it they heat and their leads lift.",
		Hint:    "Draw less, or take larger cells.",
		Source:  "makers' data sheets, ½·C·V/(R·C + 1 s), from memory"})
}

// missed warns of a phase that ended before its height.
func (c *course) missed(list *model.Cautions) {
	var last flown
	for _, l := range c.legs {
		if l.phase > 0 {
			last = l
		}
	}
	if last.leg == nil || c.ended == "end of the plan" {
		return
	}
	target := c.in.Plan[last.phase-1].UntilHeight
	if target == nil {
		return
	}
	caution := model.Caution{ID: "height-not-reached", Level: model.Warning,
		Summary: "Phase {2} ends at {0} and never comes to {1}.",
		Values:  []model.Value{model.In(max(last.end[yHeight], 0), "m"), model.In(*target, "m"), model.In(float64(last.phase), "1")},
		Why:     "The pack runs down first; charge it higher.",
		Hint:    "Aim lower, or climb faster.", Source: "common practice"}
	if begins := c.begins(last.phase); math.Abs(last.end[yHeight]-*target) > math.Abs(begins-*target) {
		caution.Summary = "Phase {2} begins at {3} and flies away from {1}, to {0}."
		caution.Values = append(caution.Values, model.In(begins, "m"))
		caution.Why, caution.Hint = "It never comes to the height that would end it.", "Turn its climb about, or leave it out."
	}
	list.Raise(caution)
}

// begins is the height at which a phase begins.
func (c *course) begins(phase int) float64 {
	for _, l := range c.legs {
		if l.phase == phase {
			y := make([]float64, len(l.end))
			l.path.At(l.from, y)
			return y[yHeight]
		}
	}
	return math.NaN()
}

// shortMargin is what radio should be left after the glide, s: one more turn
// round the field and a second approach (common practice).
const shortMargin = 30

func (c *course) radioFails(list *model.Cautions, least, terminal float64, out *FlightResult) {
	if terminal < least {
		list.Raise(model.Caution{ID: "radio-starved-under-power", Level: model.Danger,
			Summary: "Under power the pack falls to {0}; the radio needs {1}.",
			Values:  []model.Value{model.In(terminal, "V"), model.In(least, "V")},
			Why:     "A receiver that restarts in the air leaves a model that nobody steers.",
			Hint:    "Raise the cut-off above that.", Source: "common practice"})
	}
	if out.ControlMargin == nil || *out.ControlMargin >= shortMargin {
		return
	}
	x := model.Caution{ID: "control-margin-short", Level: model.Warning, Severity: shortMargin - *out.ControlMargin,
		Summary: "The radio has {0} left at touchdown.",
		Why:     "One more turn or a gust of lift uses it up.",
		Hint:    "Stop the motor earlier, or stay lower.", Source: "common practice"}
	x.Values = []model.Value{model.In(*out.ControlMargin, "s")}
	if *out.ControlMargin < 0 {
		x.ID, x.Level = "radio-fails-before-landing", model.Danger
		x.Summary, x.Why = "The radio fails {0} before touchdown.", "From there on nobody steers it."
		x.Values[0].Number = -*out.ControlMargin
	}
	list.Raise(x)
}
