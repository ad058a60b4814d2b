package flight

import (
	"math"

	"inkwing/evaluate/library/model"
)

// A Phase is a part of a flight's plan: what the motor does, and until when.
// Any record or row of a table with these fields will do.
type Phase struct {
	Throttle    *float64 `unit:"%" range:"[0,100]" choose:"motor" show:"1" help:"share of the time that the speed control is on; 0: the motor rests and the model glides"`
	ClimbRate   *float64 `unit:"m/s" range:"[0,)" choose:"motor" show:"2" help:"held, the throttle is found; 0: level"`
	Power       *float64 `unit:"W" range:"(0,)" choose:"motor" show:"3" help:"out of the pack for the motor, held, the throttle is found" symbol:"P"`
	UntilHeight *float64 `unit:"m" range:"[0,)" show:"4" help:"above the place of landing, where the phase ends"`
	ForTime     *float64 `unit:"s" range:"(0,)" show:"5" help:"after which the phase ends"`
	CL          *float64 `unit:"1" name:"CL" range:"(0,)" help:"lift coefficient flown; that of the best glide if not given"`
}

// FlightPhaseInput is what [FlightPhase] wants.
type FlightPhaseInput struct{ Phase }

// FlightPhaseResult is what [FlightPhase] answers.
type FlightPhaseResult struct{ Phase }

// FlightPhase is one part of a flight's plan, where no table of them is at hand.
//
// It says what the motor does, by throttle, climb_rate or power, and when the
// phase ends: at a height, after a time, whichever comes first, or else when
// the speed control cuts the motor off.
//
// Formula: exactly one of throttle, climb_rate and power.
//
// Validity: see flight.
//
// Source: definitions.
//
// Example:
//
//	up = flight_phase(climb_rate: 1 m/s, until_height: 50 m)
//	level = flight_phase(climb_rate: 0 m/s)
func FlightPhase(in FlightPhaseInput) (FlightPhaseResult, error) {
	return FlightPhaseResult(in), in.check(0)
}

// check refuses what says too little or too much. number is the phase's place
// in a plan, from 1; 0 where its fields are the inputs themselves.
func (p Phase) check(number int) error {
	wants := 0
	for _, x := range []*float64{p.Throttle, p.ClimbRate, p.Power} {
		if x != nil {
			wants++
		}
	}
	const mend = "give one of throttle, climb_rate (0 m/s: level) and power"
	switch {
	case wants == 0:
		return p.fault(number, "throttle", "nothing says what the motor does", mend)
	case wants > 1:
		return p.fault(number, "throttle", "throttle, climb_rate and power cannot all be had", mend)
	case p.Throttle != nil && !(*p.Throttle >= 0 && *p.Throttle <= 1):
		return p.fault(number, "throttle", "the throttle must lie between 0 and 100 %", "write a share of at most 100 %")
	case p.ClimbRate != nil && !atLeastZero(*p.ClimbRate):
		return p.fault(number, "climb_rate", "the climb rate must not be negative", "to come down under power, give a throttle")
	case p.Power != nil && !(*p.Power > 0 && atLeastZero(*p.Power)):
		return p.fault(number, "power", "the power must be more than zero", "check its sign and its unit; throttle: 0 % rests the motor")
	case p.UntilHeight != nil && !atLeastZero(*p.UntilHeight):
		return p.fault(number, "until_height", "the height must not be negative", "give it above the place of landing")
	case p.ForTime != nil && !(*p.ForTime > 0 && atLeastZero(*p.ForTime)):
		return p.fault(number, "for_time", "the time must be more than zero", "check its sign and its unit")
	}
	return nil
}

// atLeastZero reports whether x is a finite number that is not negative.
func atLeastZero(x float64) bool { return x >= 0 && !math.IsInf(x, 0) }

// fault is an error about a phase: about its field, or about the plan.
func (Phase) fault(number int, field, says, mend string) error {
	if number == 0 {
		return &model.Error{Field: field, Summary: says, Hint: mend}
	}
	return inPhase(number, says, mend)
}

// inPhase is an error about a phase of the plan.
func inPhase(number int, says, mend string, values ...model.Value) error {
	return &model.Error{Field: "plan", Summary: "phase {" + string(rune('0'+len(values))) + "}: " + says,
		Values: append(values, model.In(float64(number), "1")), Hint: mend}
}
