package generator

import "inkwing/evaluate/library/model"

const (
	ironLimit     = 1.6 // T, mild steel near its knee
	densityAdvice = 6e6 // A/m², small enclosed coils, continuous
	densityHigh   = 10e6
	touchVolts    = 60.0 // d.c.
	touchRMS      = 30.0 // a.c. rms
)

func strongMagnets(c *model.Cautions) {
	c.Raise(model.Caution{ID: "strong-magnets", Level: model.Danger, Standing: true,
		Summary: "Keep strong magnets {0} from pacemakers, and from children.",
		Values:  []model.Value{model.In(15, "cm")},
		Why:     "Never saw or grind them: their dust burns. An implant, a defibrillator too, can switch its mode in the field; two that are swallowed can perforate the bowel; blocks jump together, pinch and shatter; cards and drives lose what they hold.",
		Hint:    "Slide them apart, eyes protected.",
		Source:  "Technology and Health Care 16 (2008) 13-18; Heart Rhythm 4 (2007) 1-4; the dust: from memory; the sheets of magnet and implant come first"})
}

func heatCaution(c *model.Cautions, kelvin, limit float64) {
	if kelvin <= limit {
		return
	}
	c.Raise(model.Caution{ID: "magnet-over-temperature", Level: model.Warning,
		Summary: "The magnet is at {0}, above its grade's {1}.",
		Values:  []model.Value{model.In(kelvin-zeroCelsius, "°C"), model.In(limit-zeroCelsius, "°C")},
		Why:     "Beyond it part of the magnetisation is lost for good, and the field given here is too high.",
		Hint:    "Keep it cooler, or change the grade.",
		Source:  "makers' tables: 80 °C for plain NdFeB grades, 100 °C for M; the magnet's own sheet comes first"})
}

// ironCaution says when a plate is too thin for half of a pole's flux.
func ironCaution(c *model.Cautions, field, pole, plate float64) {
	need := field * pole / (2 * ironLimit)
	if plate >= need {
		return
	}
	c.Raise(model.Caution{ID: "iron-saturated", Level: model.Warning,
		Summary: "The iron plate of {0} saturates: half a pole wants {1}.",
		Values:  []model.Value{model.In(plate*1e3, "mm"), model.In(need*1e3, "mm")},
		Why:     "Half of a pole's flux goes through it. Saturated iron carries less, so the field is lower than given here and leaks out behind the plate.",
		Hint:    "Use a thicker one, or reckon without.",
		Source:  "common practice (mild steel to 1.6 T)"})
}
