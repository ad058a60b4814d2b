package drive

import "inkwing/evaluate/library/model"

// Spinning is the standing hazard of a motor with a propeller on it.
func Spinning(list *model.Cautions) {
	list.Raise(model.Caution{ID: "spinning-propeller", Level: model.Danger, Standing: true,
		Summary: "A propeller cuts, and may start when plugged in.",
		Why:     "A blade that lets go flies in the plane of the disc: onlookers stay behind it, too. Disarm first.",
		Hint:    "Stay behind it; arm last.",
		Source:  "common practice"})
}

// pluggedIn warns of the moment in which a charged pack meets the control.
func pluggedIn(list *model.Cautions) {
	list.Raise(model.Caution{ID: "plugging-in", Level: model.Warning, Standing: true,
		Summary: "Plugging in a charged pack sparks.",
		Why:     "The control's capacitors fill in an instant through milliohms, and through its switches a reversed pack is shorted, which burns it.",
		Hint:    "Use one-way plugs; plug in before charging.",
		Source:  "common practice; the control's manual comes first"})
}

// overCurrent warns of more current than a motor bears, if that is known.
func overCurrent(list *model.Cautions, current float64, limit *float64) {
	if limit == nil || current <= *limit {
		return
	}
	list.Raise(model.Caution{ID: "motor-over-current", Level: model.Warning,
		Summary: "The motor carries {0}, above its limit of {1}.",
		Values:  []model.Value{model.In(current, "A"), model.In(*limit, "A")},
		Why:     "The winding's heat grows with the square of the current; its insulation and magnets go first.",
		Hint:    "Use less propeller, pitch or throttle.", Source: "common practice"})
}
