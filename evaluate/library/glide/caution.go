package glide

import "inkwing/evaluate/library/model"

// stallMargin is the part of CL_max above which a glide is said to fly on the
// stall: at 0.9 a gust or a turn of 25° bank uses up what is left.
const stallMargin = 0.9

// usualCeiling is the height above ground, m, that many countries set model
// flying (120 m or 400 ft).
const usualCeiling = 120

func number(x float64) model.Value  { return model.Value{Number: x, Unit: "1"} }
func metres(x float64) model.Value  { return model.Value{Number: x, Unit: "m"} }
func amperes(x float64) model.Value { return model.Value{Number: x, Unit: "A"} }
func volts(x float64) model.Value   { return model.Value{Number: x, Unit: "V"} }
func speed(x float64) model.Value   { return model.Value{Number: x, Unit: "m/s"} }

// atStall notes that a glide is flown close to the stall, or held at it.
func atStall(list *model.Cautions, what string, cl, clMax float64) {
	if cl <= stallMargin*clMax {
		return
	}
	says := what + " is at a lift coefficient of {0}, close to the stall at {1}"
	if cl >= clMax {
		says = what + " lies at the stall or past it, and is worked at the stall's lift coefficient, {1}: it flies on the stall"
	}
	list.Raise(model.Caution{ID: "flies-on-the-stall", Level: model.Advice,
		Summary: says, Values: []model.Value{number(cl), number(clMax)},
		Why:    "a gust or a turn stalls the wing, and height is lost at once",
		Hint:   "fly a little faster than this",
		Source: "common practice"})
}

// inWind warns that a headwind carries the model back.
func inWind(list *model.Cautions, ground, wind float64, beaten bool) {
	if ground > 0 {
		return
	}
	mend := "fly at best_speed, or let it land behind you"
	if !beaten {
		mend = "wait for less wind: at no speed does this airframe glide forward against it"
	}
	list.Raise(model.Caution{ID: "blown-back", Level: model.Warning,
		Summary: "against a wind of {0} the model moves over the ground at {1}: backward",
		Values:  []model.Value{speed(-wind), speed(ground)},
		Why:     "it lands downwind of where the glide began, perhaps out of sight",
		Hint:    mend, Source: "common practice"})
}

// overCeiling warns of a height above what the law commonly allows.
func overCeiling(list *model.Cautions, height float64) {
	if height <= usualCeiling {
		return
	}
	list.Raise(model.Caution{ID: "height-over-ceiling", Level: model.Danger,
		Summary: "a height of {0} is above the {1} over ground that model flight is commonly held to",
		Values:  []model.Value{metres(height), metres(usualCeiling)},
		Why:     "crewed aircraft fly there",
		Hint:    "read what the local authority allows, and stay below it",
		Source:  "national aviation authorities: EU open category and Norway 120 m, UK 400 ft"})
}

// flying is the standing hazard of whatever is flown.
func flying(list *model.Cautions) {
	list.Raise(model.Caution{ID: "flying", Level: model.Danger, Standing: true,
		Summary: "where and how high a model may fly is set by local rules, which come before anything worked here",
		Why:     "it can hit people, and meet crewed aircraft",
		Hint:    "read the rules of the local authority and the club before flying; keep it in your own sight, away from people not involved, from aerodromes and crewed aircraft",
		Source:  "national aviation authorities: visual line of sight, commonly below 120 m or 400 ft"})
}

// spinning is the standing hazard of a motor with a propeller on it.
func spinning(list *model.Cautions) {
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
		Values:  []model.Value{amperes(current), amperes(*limit)},
		Why:     "the winding's heat grows with the square of the current, and its insulation and magnets go first",
		Hint:    "use a smaller propeller, less pitch or less throttle", Source: "common practice"})
}
