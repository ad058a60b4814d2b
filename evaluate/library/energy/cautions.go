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
		Hint:    "Charge lower, or put another cell in series.",
		Source:  makerGuides,
	}
}

func cellOverRating(worst, rating, safe, tolerance float64) model.Caution {
	return model.Caution{
		ID: "cell-over-rating", Level: model.Danger,
		Summary: "The weakest cell may stand at {0}, above its rated {1}.",
		Values: []model.Value{model.In(worst, "V"), model.In(rating, "V"), model.In(safe, "V"),
			model.In(100*tolerance, "%")},
		Why:    "Its tolerance counts as {3} (20 % unless given). All cells of a string take the same charge, so the smallest rises highest; over its rating it makes gas, and may vent or burst.",
		Hint:   "Charge to {2} at most, or match the cells.",
		Source: makerGuides,
	}
}

func unbalancedString(voltage, rating float64) model.Caution {
	return model.Caution{
		ID: "unbalanced-string", Level: model.Warning, Standing: true, Severity: voltage / rating,
		Summary: "At {0} the string is past 80 % of its rated {1}.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(rating, "V")},
		Why:     "Cells differ in capacitance and leakage, and nothing but a balancer or headroom keeps each of them within its own: match, clamp or balance them.",
		Hint:    "Measure each cell when full.",
		Source:  practice,
	}
}

func shortCircuit(current, held float64) model.Caution {
	return model.Caution{
		ID: "stored-energy", Level: model.Danger, Standing: true, Severity: held,
		Summary: "A short drives {0} and frees {1} at once.",
		Values:  []model.Value{model.In(current, "A"), model.In(held, "J")},
		Why:     "That burns skin, welds rings and tools, and throws molten metal: insulate the terminals, and protect the eyes.",
		Hint:    "Insulate, fuse the lead, no rings.",
		Source:  "V/R and C·V²/2, definitions; what it does: common practice",
	}
}

func heldEnergy(held float64) model.Caution {
	c := shortCircuit(0, held)
	c.Summary = "A short lets go all of its {0} at once."
	c.Values = []model.Value{model.In(held, "J")}
	return c
}

func risingCapacitance() model.Caution {
	return model.Caution{
		ID: "capacitance-rises", Level: model.Advice, Standing: true,
		Summary: "Below half of the rating this time reads {0} to {1} long.",
		Values:  []model.Value{model.In(7, "%"), model.In(12, "%")},
		Why:     "Cells hold less at low voltage: capacitance, worked as constant, rises with it; from a full pack the time is right. fit_capacitance finds the slope.",
		Hint:    "Give the cell its capacitance_slope.",
		Source:  "Gilabert-Torres et al., four 58 F cells (abstract seen)",
	}
}

func residualCharge() model.Caution {
	return model.Caution{
		ID: "residual-charge", Level: model.Danger, Standing: true,
		Summary: "A resting store may still be charged.",
		Why:     "Discharge it by a resistor: a shorted cell recovers voltage, and above {0} a cell is charged. Work on a store that is thought to be empty ends in burns.",
		Hint:    "Discharge it, leave it joined, and measure.",
		Values:  []model.Value{model.In(0.1, "V")},
		Source:  rebound,
	}
}

// touchVolts is the direct voltage above which a touch counts as hazardous.
const touchVolts = 60

func touchVoltage(voltage float64) model.Caution {
	return model.Caution{
		ID: "store-touch-voltage", Level: model.Danger,
		Summary: "{0} is past the {1} d.c. hazardous to touch.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(touchVolts, "V")},
		Why:     "Unlike a supply with a limit, a store goes on driving current through whoever holds both ends: work on it discharged.",
		Hint:    "Put fewer in series, or cover every joint.",
		Source:  "60 V d.c. as in IEC 61010-1 and IEC 62368-1, from memory; local rules come first",
	}
}

func joiningCells() model.Caution {
	return model.Caution{
		ID: "joining-cells", Level: model.Warning, Standing: true,
		Summary: "A cell soldered long, or reversed, can vent.",
		Why:     "Have fresh air, and eyes protected. The electrolyte, commonly acetonitrile, burns and is poisonous (makers' safety sheets, from memory); fumes of solder and of hot glue are no better.",
		Hint:    "Check polarity; solder briefly, discharged.",
		Source:  "makers' data sheets, commonly 260 °C for a few seconds, from memory; polarity: application guides of capacitor makers",
	}
}

// transportLimit is the energy above which a double-layer capacitor is
// dangerous goods.
const transportLimit = 0.3 * 3600

func dangerousGoods(cell float64) model.Caution {
	return model.Caution{
		ID: "dangerous-goods", Level: model.Advice, Standing: true,
		Summary: "A cell of {0}, over {1}, is dangerous goods.",
		Values:  []model.Value{model.In(cell/3600, "Wh"), model.In(transportLimit/3600, "Wh")},
		Why:     "In post and in baggage: ask before it is sent or flown.",
		Hint:    "Ask the carrier; carry it discharged and shorted.",
		Source:  "UN 3499, from memory",
	}
}

// reversedCell: from equal voltages a row low by d is empty when the string
// has given the share 1−d of its charge.
func reversedCell(end, from, tolerance float64) model.Caution {
	return model.Caution{
		ID: "cell-reversed", Level: model.Warning,
		Summary: "Below {3} a cell small by {2} reverses; this runs to {0}.",
		Values: []model.Value{model.In(end, "V"), model.In(from, "V"), model.In(100*tolerance, "%"),
			model.In(tolerance*from, "V")},
		Why:    "Run down from {1}; the tolerance is 20 % unless given. Reverse voltage raises a cell's leakage and resistance.",
		Hint:   "Stop higher, or match the cells.",
		Source: "application guides of capacitor makers: no reverse voltage",
	}
}

func noResistance() model.Caution {
	return model.Caution{
		ID: "no-resistance", Level: model.Advice, Standing: true,
		Summary: "The store's resistance is not given: it counts as zero.",
		Why:     "Terminals under load then fall later than real ones do. It shows in the step of voltage as a load is switched on.",
		Hint:    "Take the maker's, or measure it.",
		Source:  practice,
	}
}

// mostWithoutSpark is the loss that a joint takes without a flash worth the name.
const mostWithoutSpark = 1 // J

func joiningSpark(lost float64) model.Caution {
	return model.Caution{
		ID: "joining-spark", Level: model.Danger, Severity: lost,
		Summary: "Joined so, {0} go into the spark at once.",
		Values:  []model.Value{model.In(lost, "J")},
		Why:     "The current is bounded by the leads alone; it burns, pits and welds contacts. With the polarity reversed it is worse by far: mark it on every plug.",
		Hint:    "Bring both to one voltage by a resistor first.",
		Source:  "C1·C2/(C1 + C2)·ΔV²/2, textbook; what it does: common practice",
	}
}

func reversedAtRest(cell, least float64) model.Caution {
	return model.Caution{
		ID: "cell-reversed-at-rest", Level: model.Danger, Severity: -least,
		Summary: "Cell {0} settles at {1}, in reverse.",
		Values:  []model.Value{model.In(cell, "1"), model.In(least, "V")},
		Why:     "Its neighbours' charge drives it there. Reverse voltage makes gas and raises leakage, and what one cell lacks the others carry above their share.",
		Hint:    "Take a smaller balancing resistor; replace the leaking cell.",
		Source:  "application guides of capacitor makers: no reverse voltage",
	}
}

// meterShare is what a margin for the meter and for the cells' own drift takes off a
// voltage at which a cell stands at its very rating.
const meterShare = 0.025

func noMargin(voltage float64) model.Caution {
	return model.Caution{
		ID: "no-margin-for-the-meter", Level: model.Advice,
		Summary: "At {0} one cell stands at its very rating.",
		Values:  []model.Value{model.In(voltage, "V"), model.In(voltage*(1-meterShare), "V")},
		Why:     "A hand meter and the cells' drift with warmth and age come to 2 % or 3 % between them.",
		Hint:    "Stop at {1}: meters err.",
		Source:  practice,
	}
}
