package workshop

import "inkwing/evaluate/library/model"

// printing is the standing hazard of a printer.
func printing() model.Caution {
	return model.Caution{
		ID: "printing-fumes", Level: model.Warning, Standing: true,
		Summary: "A printer gives off fumes and dust; nozzle and bed burn.",
		Why:     "Keep hands off until it is cold. Molten plastic gives off vapours and particles below a micrometre, ABS more than PLA; a nozzle stands at 200 °C and more, and an unwatched heater has set houses on fire.",
		Hint:    "Air the room, stay by it.",
		Source:  "B. Stephens et al., Atmos. Environ. 79 (2013) 334, from memory; makers' instructions and local rules come first",
	}
}

// tipping is how many times its least side a part may stand high before it is easily
// knocked off (common practice).
const tipping = 8

func tips(high, slim float64) model.Caution {
	return model.Caution{
		ID: "part-tips", Level: model.Advice,
		Summary: "{0} high on {1}, the nozzle may knock it off.",
		Values:  []model.Value{model.In(high*1e3, "mm"), model.In(slim*1e3, "mm")},
		Why:     "A tall thin print sways, its layers part easily under a pull along it, and a heap of loose filament follows. It may be cut in two.",
		Hint:    "Lay it down, or give it a brim.",
		Source:  "common practice",
	}
}

func resistorHot(power float64) model.Caution {
	return model.Caution{
		ID: "bleed-resistor-hot", Level: model.Warning, Severity: power,
		Summary: "The resistor begins at {0}, too hot to touch.",
		Values:  []model.Value{model.In(power, "W")},
		Why:     "A resistor at its rating stands at 150 °C and more; beside cells, wrap or wood that is a fire. A lamp serves as well.",
		Hint:    "Mount it in free air, off the cells.",
		Source:  "common practice; the resistor's own sheet comes first",
	}
}
