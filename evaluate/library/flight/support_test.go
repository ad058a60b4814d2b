package flight

import (
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
)

const (
	anderson = "J. D. Anderson, Introduction to Flight, chapter 6"
	rpm      = math.Pi / 30
)

// glider and lapwing are the airframe and the drive of our own invented model.
func glider() glide.Plane {
	return glide.Plane{Mass: 0.390, Span: 1.10, Area: 0.165, CD0: 0.035, Oswald: 0.78, CLMax: 1.10, Density: 1.225}
}

func lapwing() drive.DriveModel {
	return drive.DriveModel{Motor: drive.MotorModel{Kv: 1000 * rpm, Resistance: 0.20, IdleCurrent: 0.35},
		Propeller:    drive.PropellerModel{Diameter: 8 * 0.0254, CT0: new(0.105), CP0: new(0.048), ZeroThrustJ: new(0.75)},
		SpeedControl: drive.SpeedControlModel{Resistance: 0.020}, LeadResistance: 0.015}
}

// modelGlider is the airframe of the rows "Model glider set": an invented one,
// whose closed forms are those of J. D. Anderson.
func modelGlider(clMax float64) glide.Plane {
	return glide.Plane{Mass: 0.250, Span: 0.95, Area: 0.12, CD0: 0.035, Oswald: 0.80, CLMax: clMax, Density: 1.225}
}
