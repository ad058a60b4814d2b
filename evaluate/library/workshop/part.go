package workshop

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// PrintedPartInput is a part by its outer size, and how it is printed.
type PrintedPartInput struct {
	Height   float64  `unit:"mm" range:"(0,)" help:"as it stands on the bed"`
	Length   *float64 `unit:"mm" range:"(0,)" help:"of a block; with width"`
	Width    *float64 `unit:"mm" range:"(0,)" help:"of a block"`
	Diameter *float64 `unit:"mm" range:"(0,)" help:"of a disc or tube, instead of length and width"`
	Bore     float64  `unit:"mm" range:"[0,)" default:"0 mm" help:"of a disc or tube, right through"`
	Cut      float64  `unit:"mm^3" range:"[0,)" default:"0 mm^3" help:"that pockets and slots take out of the solid shape"`

	Walls       int     `range:"[0,50]" default:"2" help:"lines side by side around each layer"`
	LineWidth   float64 `unit:"mm" range:"(0,)" default:"0.45 mm" help:"of a line"`
	Layers      int     `range:"[0,200]" default:"4" help:"solid ones at the bottom, and as many at the top"`
	LayerHeight float64 `unit:"mm" range:"(0,)" default:"0.2 mm" help:"of a layer"`
	Infill      float64 `unit:"%" range:"[0,100]" default:"20 %" help:"of what lies within"`
	Density     float64 `unit:"g/cm^3" range:"(0,)" default:"1.24 g/cm^3" help:"of the plastic: 1.24 g/cm³ is PLA's"`
	Filament    float64 `unit:"mm" range:"(0,)" default:"1.75 mm" help:"diameter of the filament"`
	SpoolPrice  float64 `dim:"x" range:"[0,)" default:"0" help:"of a spool of it, as in 22 EUR"`
	SpoolMass   float64 `unit:"kg" range:"(0,)" default:"1 kg" help:"of the filament on that spool"`
}

// PrintedPartResult is what it takes.
type PrintedPartResult struct {
	Mass       float64 `unit:"g" show:"1" help:"of the part" symbol:"m"`
	Filament   float64 `unit:"m" show:"2" help:"length that it takes"`
	Price      float64 `dim:"x" help:"of that filament; 0 without spool_price"`
	SolidMass  float64 `unit:"g" help:"if it were solid"`
	LayerCount float64 `unit:"1" help:"layers one on the other"`
	model.Cautions
}

// PrintedPart is the mass of a part printed in layers, with the length and the price of
// the filament that it takes.
//
// Formula: m = ρ·(V − (1 − q)·V_core − cut), q the infill, V_core the shape less c = walls·line_width at every side, h_c = layers·layer_height at top and bottom; of a block V = l·w·h, V_core = (l − 2·c)·(w − 2·c)·(h − 2·h_c), of a disc V = π·d²/4·h, V_core = π·(d − 2·c)²/4·(h − 2·h_c), of a tube V = π·(d² − b²)/4·h, V_core = π·((d − 2·c)² − (b + 2·c)²)/4·(h − 2·h_c); length x = m/(ρ·π·d_f²/4); layers n = ceil(h/layer_height).
//
// Letters: h height; l length; w width; d diameter; b bore; cut cut; walls walls; line_width line_width; layers layers; layer_height layer_height; q infill; ρ density; d_f filament; m = mass; x = filament; n = layer_count.
//
// Validity: blocks, discs and tubes, upright; supports, brim and what is purged come on top, 5 % to 20 % commonly. Weigh the first print: density and line width differ by 3 % or so from spool to spool.
//
// Source: geometry; density of PLA: makers' sheets, from memory.
//
// Example:
//
//	rotor = printed_part(5 mm, diameter: 116 mm, spool_price: 22 EUR)
//	m_rotor [g] = rotor.mass
func PrintedPart(in PrintedPartInput) (PrintedPartResult, error) {
	if err := in.check(); err != nil {
		return PrintedPartResult{}, err
	}
	wall, cap := float64(in.Walls)*in.LineWidth, float64(in.Layers)*in.LayerHeight
	solid, core := in.area(0)*in.Height, in.area(wall)*max(0, in.Height-2*cap)
	filled := solid - (1-in.Infill)*core - in.Cut
	if !(filled > 0) {
		return PrintedPartResult{}, &model.Error{Field: "cut", Summary: "takes {0} out of a part that has {1} of plastic",
			Values: []model.Value{model.In(in.Cut*1e9, "mm^3"), model.In((filled+in.Cut)*1e9, "mm^3")}, Hint: "count only what walls and infill would have filled"}
	}
	out := PrintedPartResult{Mass: in.Density * filled, SolidMass: in.Density * (solid - in.Cut), LayerCount: math.Ceil(in.Height/in.LayerHeight - 1e-9)}
	out.Filament = filled / (math.Pi / 4 * in.Filament * in.Filament)
	out.Price = in.SpoolPrice * out.Mass / in.SpoolMass
	out.Raise(printing())
	return out, nil
}

// area is that of a layer, less an edge all round.
func (in PrintedPartInput) area(edge float64) float64 {
	if in.Diameter == nil {
		return max(0, *in.Length-2*edge) * max(0, *in.Width-2*edge)
	}
	inner := 0.0
	if in.Bore > 0 {
		inner = in.Bore + 2*edge
	}
	outer := *in.Diameter - 2*edge
	if outer <= inner {
		return 0
	}
	return math.Pi / 4 * (outer*outer - inner*inner)
}

func (in PrintedPartInput) check() error {
	if err := in.shape(); err != nil {
		return err
	}
	return require.All(require.Positive("height", in.Height, "m"), require.NotNegative("cut", in.Cut, "m^3"),
		require.Positive("line_width", in.LineWidth, "m"), require.Positive("layer_height", in.LayerHeight, "m"),
		require.NotNegative("infill", in.Infill, "1"), require.Positive("density", in.Density, "kg/m^3"),
		require.Positive("filament", in.Filament, "m"), require.Positive("spool_mass", in.SpoolMass, "kg"))
}

// shape wants a block or a disc.
func (in PrintedPartInput) shape() error {
	block, round := in.Length != nil && in.Width != nil, in.Diameter != nil
	switch {
	case round && (in.Length != nil || in.Width != nil), !round && !block:
		return &model.Error{Field: "diameter", Summary: "or length and width say the outer size: give the one or the other two",
			Hint: "give diameter for a disc or tube, length and width for a block"}
	case block && in.Bore > 0:
		return &model.Error{Field: "bore", Summary: "belongs to a disc or tube", Hint: "count the holes of a block in cut"}
	case block:
		return require.All(require.Positive("length", *in.Length, "m"), require.Positive("width", *in.Width, "m"))
	case in.Bore >= *in.Diameter:
		return &model.Error{Field: "bore", Summary: "is {0}, and the part {1} across", Values: []model.Value{model.In(in.Bore*1e3, "mm"), model.In(*in.Diameter*1e3, "mm")}, Hint: "give a bore smaller than the diameter"}
	}
	return require.All(require.Positive("diameter", *in.Diameter, "m"), require.NotNegative("bore", in.Bore, "m"))
}
