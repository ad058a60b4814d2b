package flight

import (
	"context"

	"inkwing/evaluate/library/model"
)

// forever is longer than any store flies, s.
const forever = 1e6

// powered follows the plan until the motor stops.
func (c *course) powered(ctx context.Context, k *circuit) error {
	for i, ph := range c.in.Plan {
		l, err := k.newLeg(c.in.Airframe, ph, i+1, c.in.Home)
		if err != nil {
			return err
		}
		if done, err := c.follow(ctx, l, ph); done || err != nil {
			return err
		}
	}
	c.ended = "end of the plan"
	c.note(c.t, c.y, len(c.in.Plan), "end of the plan")
	return nil
}

// follow flies a phase; done says that the motor has stopped for good.
func (c *course) follow(ctx context.Context, l *leg, ph Phase) (done bool, err error) {
	until, end := c.t+forever, "time is up"
	if ph.ForTime != nil {
		until = c.t + *ph.ForTime
	}
	if ph.UntilHeight != nil && *ph.UntilHeight == c.y[yHeight] {
		return false, nil
	}
	l, done, err = c.begin(l)
	for !done && err == nil {
		var event int
		event, err = c.fly(ctx, l, until, ph.UntilHeight)
		if err != nil {
			break
		}
		switch event {
		case eSpare:
			c.note(c.t, c.y, l.phase, "full throttle")
			l, done, err = c.begin(l.full())
			continue
		case eCutOff, eGround:
			c.stop(event, l.phase)
			return true, nil
		case eHeight:
			end = "height reached"
		}
		c.note(c.t, c.y, l.phase, end)
		return false, nil
	}
	return done, err
}

func (c *course) stop(event, phase int) {
	c.ended = "cut-off"
	if event == eGround {
		c.ended = "ground"
	}
	c.note(c.t, c.y, phase, c.ended)
}

// begin refuses a leg that cannot be flown, and finds the one that begins at
// full throttle or with the cut-off.
func (c *course) begin(l *leg) (*leg, bool, error) {
	v := c.y[yVoltage]
	if l.task == throttle {
		v = min(v, c.cutOff) // the least that the store can have come to
	}
	if !l.turning(v) {
		return l, false, inPhase(l.phase, "the motor does not turn at {0}", "give more throttle, more power or a higher cut-off", model.In(v, "V"))
	}
	v = c.y[yVoltage]
	m := l.at(v)
	if m.spare < 0 {
		c.note(c.t, c.y, l.phase, "full throttle")
		return c.begin(l.full())
	}
	if l.task != rest && !l.within(m.turns, m.speed) {
		return l, false, l.disc.Unbalanced("drive.propeller")
	}
	if l.tooSteep(v) {
		return l, false, inPhase(l.phase, "the thrust carries the model past 45°", "use less throttle")
	}
	if m.terminal > c.cutOff {
		return l, false, nil
	}
	if c.t == 0 {
		return l, false, &model.Error{Field: "start_voltage", Summary: "under the first load the pack gives {0}, no more than the cut-off, {1}",
			Values: []model.Value{model.In(m.terminal, "V"), model.In(c.cutOff, "V")}, Hint: "charge it higher, ask less of the motor, or take a pack of less resistance"}
	}
	c.stop(eCutOff, l.phase)
	return l, true, nil
}
