package glide

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// A PartRow is one row of a list of parts.
type PartRow struct {
	Mass     float64 `unit:"g" help:"of the part" symbol:"m"`
	Position float64 `unit:"mm" help:"of its own centre of gravity, behind the datum"`
}

// PartInput is what [Part] wants.
type PartInput struct{ PartRow }

// PartResult is what [Part] answers.
type PartResult struct{ PartRow }

// Part is a mass and its place, for balance, where no table of parts is at hand.
//
// Formula: none.
//
// Validity: positions of all parts from one datum, backward positive.
//
// Source: definition.
//
// Example:
//
//	motor_and_mount = part(38 g, 12 mm)
func Part(in PartInput) (PartResult, error) {
	return PartResult(in), require.NotNegative("mass", in.Mass, "kg")
}

// Centre is the record of a model's mass and where it balances.
type Centre struct {
	Mass   float64 `unit:"g" range:"(0,)" show:"1" help:"of all parts" symbol:"m"`
	Centre float64 `unit:"mm" show:"2" help:"centre of gravity, behind the datum"`
}

// BalanceInput is what [Balance] wants.
type BalanceInput struct {
	Parts       []PartRow `help:"a table with the columns mass and position"`
	MeanChord   *float64  `unit:"mm" range:"(0,)" help:"the wing's, to give the centre as a share of it"`
	LeadingEdge *float64  `unit:"mm" help:"of the mean chord, behind the datum"`
}

// BalanceResult is what [Balance] answers.
type BalanceResult struct {
	Centre
	Share *float64 `unit:"%" show:"3" help:"of the mean chord, from its leading edge"`
	model.Cautions
}

// Balance says what a model weighs and where it balances.
//
// Positions are from one datum, the nose for one, backward positive. With the
// wing's mean chord and where its leading edge lies the centre is also given as
// a share of the chord.
//
// Formula: m_all = Σ m; centre x_c = Σ m·x/Σ m; share s = (x_c − x0)/c.
//
// Letters: m parts.mass; x parts.position; x0 leading_edge; c mean_chord; m_all = mass; x_c = centre; s = share.
//
// Validity: every part that flies is listed, glue and covering too.
//
// Source: statics.
//
// Example:
//
//	stands = balance([part(120 g, 180 mm), part(70 g, 60 mm)], mean_chord: 150 mm, leading_edge: 90 mm)
//	m_all [g] = stands.mass
func Balance(in BalanceInput) (BalanceResult, error) {
	var sum, moment float64
	for _, p := range in.Parts {
		if err := require.In("parts", require.NotNegative("mass", p.Mass, "kg")); err != nil {
			return BalanceResult{}, err
		}
		sum, moment = sum+p.Mass, moment+p.Mass*p.Position
	}
	if sum == 0 {
		return BalanceResult{}, &model.Error{Field: "parts", Summary: "the parts have no mass together", Hint: "list parts with their masses"}
	}
	out := BalanceResult{Centre: Centre{Mass: sum, Centre: moment / sum}}
	if in.MeanChord == nil {
		return out, nil
	}
	if err := require.Positive("mean_chord", *in.MeanChord, "m"); err != nil {
		return BalanceResult{}, err
	}
	if in.LeadingEdge == nil {
		return BalanceResult{}, &model.Error{Field: "leading_edge", Summary: "nothing says where the mean chord lies",
			Hint: "give leading_edge too, behind the same datum as the parts"}
	}
	share := (out.Centre.Centre - *in.LeadingEdge) / *in.MeanChord
	out.Share = &share
	return out, nil
}

// MovePartInput is what [MovePart] wants.
type MovePartInput struct {
	Balance  Centre   `help:"mass and centre as they are, from balance"`
	Wanted   float64  `unit:"mm" help:"centre of gravity wanted, behind the datum"`
	PartMass *float64 `unit:"g" range:"(0,)" choose:"by" help:"of the part that moves"`
	Ballast  *float64 `unit:"mm" choose:"by" help:"where ballast would go, behind the datum"`
}

// MovePartResult is what [MovePart] answers.
type MovePartResult struct {
	Shift   float64 `unit:"mm" show:"1" help:"of the part, backward positive"`
	Ballast float64 `unit:"g" show:"2" help:"to add"`
	Mass    float64 `unit:"g" show:"3" help:"of the model afterward" symbol:"m"`
}

// MovePart says how far to move a part, or how much ballast to add, for a wanted centre of gravity.
//
// Formula: shift s = M·(x_w − x_c)/m; ballast m_b = M·(x_w − x_c)/(x_b − x_w).
//
// Letters: M balance.mass; x_c balance.centre; x_w wanted; m part_mass; x_b ballast; s = shift; m_b = ballast.
//
// Validity: only that part moves.
//
// Source: statics.
//
// Example:
//
//	stands = balance([part(120 g, 180 mm), part(70 g, 60 mm)])
//	pack_moves = move_part(stands, wanted: 130 mm, part_mass: 70 g)
func MovePart(in MovePartInput) (MovePartResult, error) {
	if err := require.In("balance", require.Positive("mass", in.Balance.Mass, "kg")); err != nil {
		return MovePartResult{}, err
	}
	moment := in.Balance.Mass * (in.Wanted - in.Balance.Centre)
	switch {
	case in.PartMass != nil:
		return in.shift(moment)
	case in.Ballast != nil:
		return in.ballast(moment)
	}
	return MovePartResult{}, &model.Error{Field: "part_mass", Summary: "nothing says what is to move", Hint: "give part_mass, or ballast: the place for it"}
}

func (in MovePartInput) shift(moment float64) (MovePartResult, error) {
	if err := require.Positive("part_mass", *in.PartMass, "kg"); err != nil {
		return MovePartResult{}, err
	}
	if *in.PartMass > in.Balance.Mass {
		return MovePartResult{}, &model.Error{Field: "part_mass", Summary: "the part has more mass, {0}, than the whole model, {1}",
			Values: []model.Value{model.In(*in.PartMass, "kg"), model.In(in.Balance.Mass, "kg")}, Hint: "give the part's own mass"}
	}
	return MovePartResult{Shift: moment / *in.PartMass, Mass: in.Balance.Mass}, nil
}

func (in MovePartInput) ballast(moment float64) (MovePartResult, error) {
	arm := *in.Ballast - in.Wanted
	if moment != 0 && !(moment/arm >= 0 && !math.IsInf(moment/arm, 0)) {
		return MovePartResult{}, &model.Error{Field: "ballast", Summary: "ballast at {0} does not bring the centre from {1} to {2}",
			Values: []model.Value{model.In(*in.Ballast, "m"), model.In(in.Balance.Centre, "m"), model.In(in.Wanted, "m")},
			Hint:   "place it past the wanted centre, on the side that the centre has to go"}
	}
	if moment == 0 {
		return MovePartResult{Mass: in.Balance.Mass}, nil
	}
	m := moment / arm
	return MovePartResult{Ballast: m, Mass: in.Balance.Mass + m}, nil
}
