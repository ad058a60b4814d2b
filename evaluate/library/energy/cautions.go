package energy

import "inkwing/evaluate/library/model"

const (
	practice    = "common practice"
	makerGuides = "application guides of two capacitor makers: excess voltage makes gas, then leakage or rupture"
	rebound     = "arXiv 1908.02559 (a shorted cell recovers voltage); common practice"
)

func storeOverRating(voltage, rating float64) model.Caution {
	return model.Caution{
		ID: "store-over-rating", Level: model.Danger,
		Summary: "The store stands at {0}, above its rating of {1}.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(rating, "V")},
		Why:     "Over its rating a cell's electrolyte breaks down: it ages fast, makes gas, and may vent or burst.",
		Hint:    "Charge to a lower voltage or put another cell in series.",
		Source:  makerGuides,
	}
}

func cellOverRating(worst, rating, safe, tolerance float64) model.Caution {
	return model.Caution{
		ID: "cell-over-rating", Level: model.Danger,
		Summary: "With cells that differ by up to {3} to either side, the weakest may stand at {0}, above its rating of {1}, although the string as a whole is within its own.",
		Values: []model.Value{model.In(worst, "V"), model.In(rating, "V"), model.In(safe, "V"),
			model.In(100*tolerance, "%")},
		Why:    "All cells of a string take the same charge, so the smallest rises highest; over its rating it makes gas, and may vent or burst.",
		Hint:   "Charge to {2} at most, match the cells and say so by their tolerance, or clamp each of them; measure every cell, not only the sum.",
		Source: makerGuides,
	}
}

func unbalancedString(voltage, rating float64) model.Caution {
	return model.Caution{
		ID: "unbalanced-string", Level: model.Warning, Standing: true,
		Summary: "A string of cells is charged to {0}, more than 80 % of its rating of {1}.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(rating, "V")},
		Why:     "Cells differ in capacitance and leakage, and nothing but a balancer or headroom keeps each of them within its own rating.",
		Hint:    "Measure each cell at the end of a charge; match, clamp or balance them.",
		Source:  practice,
	}
}

func shortCircuit(current, held float64) model.Caution {
	return model.Caution{
		ID: "stored-energy", Level: model.Danger, Standing: true,
		Summary: "Shorted, the charged store drives up to {0} and lets go {1} at once.",
		Values:  []model.Value{model.In(current, "A"), model.In(held, "J")},
		Why:     "That burns skin, welds rings and tools, and throws molten metal.",
		Hint:    "Insulate the terminals, take off rings, fuse the lead at the store, wear eye protection. The maker's sheet and local rules come first.",
		Source:  practice,
	}
}

func heldEnergy(held float64) model.Caution {
	c := shortCircuit(0, held)
	c.Summary = "Charged, the store holds {0}, and a short lets it go at once."
	c.Values = []model.Value{model.In(held, "J")}
	return c
}

func risingCapacitance() model.Caution {
	return model.Caution{
		ID: "capacitance-rises", Level: model.Advice, Standing: true,
		Summary: "A double-layer cell holds less at low voltage: below half of the rating this time reads {0} to {1} long.",
		Values:  []model.Value{model.In(7, "%"), model.In(12, "%")},
		Why:     "Capacitance, worked as constant, rises with the voltage; from a full pack the time is right.",
		Hint:    "Measure the capacitance over the voltages of the flight.",
		Source:  "Gilabert-Torres et al., four 58 F cells (abstract seen)",
	}
}

func residualCharge() model.Caution {
	return model.Caution{
		ID: "residual-charge", Level: model.Danger, Standing: true,
		Summary: "A store at rest may still hold most of its charge, and a shorted cell recovers voltage when the short is taken off.",
		Why:     "Work on a store that is thought to be empty ends in burns.",
		Hint:    "Discharge through a resistor, leave the terminals joined, and measure before work; above {0} a cell counts as charged.",
		Values:  []model.Value{model.In(0.1, "V")},
		Source:  rebound,
	}
}

// touchVolts is the direct voltage above which a touch counts as hazardous.
const touchVolts = 60

func touchVoltage(voltage float64) model.Caution {
	return model.Caution{
		ID: "store-touch-voltage", Level: model.Danger,
		Summary: "The store comes to {0}; above {1} d.c. a voltage counts as hazardous to touch.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(touchVolts, "V")},
		Why:     "Unlike a supply with a limit, a store goes on driving current through whoever holds both ends.",
		Hint:    "Put fewer cells in series, or cover every joint and work on it discharged only; local rules come first.",
		Source:  "limit as in IEC 61140, from memory",
	}
}

func joiningCells() model.Caution {
	return model.Caution{
		ID: "joining-cells", Level: model.Warning, Standing: true,
		Summary: "Long heat at its leads harms a cell's seal, and one put in the wrong way round can vent.",
		Hint:    "Check the polarity of each cell, solder it discharged, for a few seconds at the leads, with fresh air and eye protection. The maker's sheet comes first.",
		Source:  "makers' data sheets, commonly 260 °C for a few seconds, from memory; polarity: application guides of capacitor makers",
	}
}

// transportLimit is the energy above which a double-layer capacitor is
// dangerous goods.
const transportLimit = 0.3 * 3600

func dangerousGoods(cell float64) model.Caution {
	return model.Caution{
		ID: "dangerous-goods", Level: model.Advice, Standing: true,
		Summary: "A cell holds {0}; above {1} it counts as dangerous goods in the post and in baggage.",
		Values:  []model.Value{model.In(cell/3600, "Wh"), model.In(transportLimit/3600, "Wh")},
		Hint:    "Ask the carrier before sending or flying with it, and carry it discharged and shorted.",
		Source:  "UN 3499, from memory",
	}
}

// reversedCell: from equal voltages a row low by d is empty when the string
// has given the share 1−d of its charge.
func reversedCell(end, from, tolerance float64) model.Caution {
	return model.Caution{
		ID: "cell-reversed", Level: model.Warning,
		Summary: "Run down to {0} from {1}, the smallest cell of a balanced string may be driven below zero; with a tolerance of {2} that begins at {3}.",
		Values: []model.Value{model.In(end, "V"), model.In(from, "V"), model.In(100*tolerance, "%"),
			model.In(tolerance*from, "V")},
		Why:    "Reverse voltage raises a cell's leakage and resistance.",
		Hint:   "Stop at a higher voltage, or match the cells.",
		Source: "application guides of capacitor makers: no reverse voltage",
	}
}

func noResistance() model.Caution {
	return model.Caution{
		ID: "no-resistance", Level: model.Advice, Standing: true,
		Summary: "The store's resistance is not given and counts as zero.",
		Why:     "Terminals under load then fall later than real ones do.",
		Hint:    "Take it from the maker's sheet, or measure it by the step of voltage as a load is switched on.",
		Source:  practice,
	}
}
