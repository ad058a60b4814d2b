package flight

import (
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestHandLaunch(t *testing.T) {
	p := modelGlider(1) // stalls at 5.77546 m/s
	slow := kit.Must(HandLaunch(HandLaunchInput{Airframe: p, ThrowSpeed: 5, Headwind: 1, StaticThrust: new(1.2)}))(t)
	if !kit.Raised(slow.List, "launch-too-slow") || !kit.Raised(slow.List, "spinning-propeller") || !kit.Raised(slow.List, "flying") {
		t.Errorf("cautions %v", slow.List)
	}
	kit.Near(t, "throw needed", slow.ThrowNeeded, 1.2*5.77546-1, kit.Digits(5))
	kit.Near(t, "thrust to weight", *slow.ThrustToWeight, 1.2/(0.25*9.80665), 1e-14)
	enough := kit.Must(HandLaunch(HandLaunchInput{Airframe: p, ThrowSpeed: slow.ThrowNeeded * (1 + 1e-12), Headwind: 1}))(t)
	kit.Near(t, "over the stall", enough.OverStall, 1.2, 1e-9)
	if kit.Raised(enough.List, "launch-too-slow") {
		t.Error("the throw that is needed is too slow")
	}
	_, err := HandLaunch(HandLaunchInput{Airframe: p})
	kit.Refuses(t, err, "throw_speed")
}
