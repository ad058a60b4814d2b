package glide

import "inkwing/evaluate/library/model"

// stallMargin is the part of CL_max above which a glide is said to fly on the
// stall: at 0.9 a gust or a turn of 25° bank uses up what is left.
const stallMargin = 0.9

// usualCeiling is the height above ground, m, that many countries set model
// flying (120 m or 400 ft).
const usualCeiling = 120

// AtStall notes that something is flown close to the stall, or held at it.
func AtStall(list *model.Cautions, cl, clMax float64) {
	if cl <= stallMargin*clMax {
		return
	}
	says := "It flies at a lift coefficient of {0}; it stalls at {1}."
	if cl >= clMax {
		says = "It is flown at the stall, a lift coefficient of {1}."
	}
	list.Raise(model.Caution{ID: "flies-on-the-stall", Level: model.Advice, Severity: cl / clMax,
		Summary: says, Values: []model.Value{model.In(cl, "1"), model.In(clMax, "1")},
		Why:    "A gust or a turn stalls the wing, and height is lost at once.",
		Hint:   "Fly a little faster.",
		Source: "common practice"})
}

// BlownBack warns that a headwind carries the model back.
func BlownBack(list *model.Cautions, ground, wind float64) {
	if ground > 0 {
		return
	}
	list.Raise(model.Caution{ID: "blown-back", Level: model.Warning, Severity: -ground,
		Summary: "A headwind of {0} blows it back at {1}.",
		Values:  []model.Value{model.In(-wind, "m/s"), model.In(-ground, "m/s")},
		Why:     "It goes backward over the ground, and lands downwind of where the glide began, perhaps out of sight.",
		Hint:    "Fly faster, or wait for less wind.", Source: "common practice"})
}

// OverCeiling warns of a height above what the law commonly allows.
func OverCeiling(list *model.Cautions, height float64) {
	if height <= usualCeiling {
		return
	}
	list.Raise(model.Caution{ID: "height-over-ceiling", Level: model.Danger,
		Summary: "{0} is above the {1} commonly allowed.",
		Values:  []model.Value{model.In(height, "m"), model.In(usualCeiling, "m")},
		Why:     "That is over ground. Crewed aircraft fly there.",
		Hint:    "Stay below what the local authority allows.",
		Source:  "national aviation authorities: EU open category and Norway 120 m, UK 400 ft"})
}

// Flying is the standing hazard of whatever is flown.
func Flying(list *model.Cautions) {
	list.Raise(model.Caution{ID: "flying", Level: model.Danger, Standing: true,
		Summary: "A model can hit people or crewed aircraft.",
		Why:     "Keep it away from people and aerodromes. Local rules come before anything worked here.",
		Hint:    "Follow local rules; keep it in sight.",
		Source:  "national aviation authorities: visual line of sight, commonly below 120 m or 400 ft"})
}
