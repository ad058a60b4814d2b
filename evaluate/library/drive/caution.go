package drive

import "inkwing/evaluate/library/model"

// Spinning is the standing hazard of a motor with a propeller on it.
func Spinning(list *model.Cautions) {
	list.Raise(model.Caution{ID: "spinning-propeller", Level: model.Danger, Standing: true,
		Summary: "a propeller cuts, and a motor starts the moment its lead or its speed control wakes",
		Why:     "a tip moves at about 100 m/s even on a small one, and a blade that lets go flies in the plane of the disc",
		Hint:    "hold the model fast, stay behind the disc with hands, face, sleeves and onlookers clear of it and its plane; try the motor without the propeller first; arm last, disarm first",
		Source:  "common practice"})
}

// overCurrent warns of more current than a motor bears, if that is known.
func overCurrent(list *model.Cautions, current float64, limit *float64) {
	if limit == nil || current <= *limit {
		return
	}
	list.Raise(model.Caution{ID: "motor-over-current", Level: model.Warning,
		Summary: "the motor carries {0}, above its limit of {1}",
		Values:  []model.Value{model.In(current, "A"), model.In(*limit, "A")},
		Why:     "the winding's heat grows with the square of the current, and its insulation and magnets go first",
		Hint:    "use a smaller propeller, less pitch or less throttle", Source: "common practice"})
}
