package numeric

import "fmt"

// A Cause is why an integration stalled.
type Cause uint8

// The causes.
const (
	BadInput  Cause = iota // the problem is not posed: no state, a tolerance below rounding, …
	TooMany                // the bound on steps was reached
	TooSmall               // the step fell below what float64 can tell apart
	NotFinite              // the derivative or the state is no finite number
	Stiff                  // stability, not accuracy, bounds the step
	Cancelled              // the context was cancelled, or its deadline passed
)

// A Stall says where and why an integration ended before its time.
type Stall struct {
	Cause  Cause
	T      float64   // how far it came
	Y      []float64 // the state there
	Steps  int       // accepted until then
	Detail string    // more about the cause; may be empty
	Err    error     // the context's error, nil otherwise
}

// Error tells cause, place and count.
func (s *Stall) Error() string {
	why := [...]string{"the problem cannot be integrated", "too many steps", "the step became too small",
		"the derivative is no finite number", "the problem is stiff", "stopped"}[min(s.Cause, Cancelled)]
	if s.Detail != "" {
		why += " (" + s.Detail + ")"
	}
	return fmt.Sprintf("%s at t = %.6g after %d steps", why, s.T, s.Steps)
}

// Unwrap gives the context's error.
func (s *Stall) Unwrap() error { return s.Err }
