package glide

import "inkwing/evaluate/library/model"

// stallMargin is the part of CL_max above which a glide is said to fly on the
// stall: at 0.9 a gust or a turn of 25° bank uses up what is left.
const stallMargin = 0.9

// usualCeiling is the height above ground, m, that many countries set model
// flying (120 m or 400 ft).
const usualCeiling = 120

// AtStall notes that a glide is flown close to the stall, or held at it.
func AtStall(list *model.Cautions, what string, cl, clMax float64) {
	if cl <= stallMargin*clMax {
		return
	}
	says := what + " is at a lift coefficient of {0}, close to the stall at {1}"
	if cl >= clMax {
		says = what + " lies at the stall or past it, and is worked at the stall's lift coefficient, {1}: it flies on the stall"
	}
	list.Raise(model.Caution{ID: "flies-on-the-stall", Level: model.Advice,
		Summary: says, Values: []model.Value{model.In(cl, "1"), model.In(clMax, "1")},
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
		Values:  []model.Value{model.In(-wind, "m/s"), model.In(ground, "m/s")},
		Why:     "it lands downwind of where the glide began, perhaps out of sight",
		Hint:    mend, Source: "common practice"})
}

// OverCeiling warns of a height above what the law commonly allows.
func OverCeiling(list *model.Cautions, height float64) {
	if height <= usualCeiling {
		return
	}
	list.Raise(model.Caution{ID: "height-over-ceiling", Level: model.Danger,
		Summary: "a height of {0} is above the {1} over ground that model flight is commonly held to",
		Values:  []model.Value{model.In(height, "m"), model.In(usualCeiling, "m")},
		Why:     "crewed aircraft fly there",
		Hint:    "read what the local authority allows, and stay below it",
		Source:  "national aviation authorities: EU open category and Norway 120 m, UK 400 ft"})
}

// Flying is the standing hazard of whatever is flown.
func Flying(list *model.Cautions) {
	list.Raise(model.Caution{ID: "flying", Level: model.Danger, Standing: true,
		Summary: "where and how high a model may fly is set by local rules, which come before anything worked here",
		Why:     "it can hit people, and meet crewed aircraft",
		Hint:    "read the rules of the local authority and the club before flying; keep it in your own sight, away from people not involved, from aerodromes and crewed aircraft",
		Source:  "national aviation authorities: visual line of sight, commonly below 120 m or 400 ft"})
}
