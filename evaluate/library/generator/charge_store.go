package generator

import (
	"math"

	"inkwing/evaluate/library/internal/twobranch"
)

// law is the store's branches.
func (s *ChargedStore) law() twobranch.Law { return s.Law(s.Capacitance, s.RatedVoltage) }

// states is how many numbers a charge is followed by.
func (s *ChargedStore) states() int {
	if s.law().Lags() {
		return iBranched
	}
	return iCount
}

// slow is the slow branch's voltage, 0 where there is none.
func (s *ChargedStore) slow(y []float64) float64 {
	if len(y) < iBranched {
		return 0
	}
	return y[iSlow]
}

// slowly is what a slow branch adds to what grows with the voltage, by the volt.
// The fast branch's voltage only rises, however much the slow one takes: where the two
// currents come close, the slow one fills and takes less.
func slowly(law twobranch.Law, v, slow float64, dy []float64) {
	into, dt := law.Into(v, slow), dy[iTime]
	dy[iSlow], dy[iSettling] = into/law.Slow*dt, into*into*law.Through*dt
}

// charges is what grows with the voltage, by the volt, where the slow branch is at another
// voltage than it was: all of it goes with the time. False where the slow branch takes more than there is.
func charges(law twobranch.Law, v, net, slow float64, dy []float64) bool {
	dt := law.At(v) / (net - law.Into(v, slow))
	if !(dt > 0) || math.IsInf(dt, 0) {
		return false
	}
	by := dt / dy[iTime]
	for i := range dy[:iCount] {
		dy[i] *= by
	}
	slowly(law, v, slow, dy)
	return true
}

// settling is what a charge says of a slow branch.
func (in *HandChargeInput) settling(y []float64, out *HandChargeResult) {
	law := in.Store.law()
	if !law.Lags() {
		return
	}
	slow := y[iSlow]
	settled := law.Settled(in.To, slow)
	out.SlowVoltage, out.SettledVoltage = &slow, &settled
	out.Stored = law.Held(in.To, slow) - law.Held(in.From, in.From)
	out.Settling = y[iSettling]
}
