// Package units is dimensions, units and prefixes: reading and writing them.
//
// (contract; the author of this package completes it)
package units

// Dimension is a product of powers of the seven SI bases, with rational
// exponents. It is comparable; the zero value is a pure number.
type Dimension struct{ }

func (d Dimension) Mul(e Dimension) Dimension
func (d Dimension) Div(e Dimension) Dimension
// Pow raises to num/den; ok is false past the range that exponents can hold.
func (d Dimension) Pow(num, den int) (Dimension, bool)
func (d Dimension) IsNumber() bool
func (d Dimension) Name() string   // "voltage", "energy"; "" if it has no usual name
func (d Dimension) SIUnit() string // the coherent SI unit: "V", "m/s", "m/s²", "1" for a pure number

// Mark tells a rotation (rad/s, rpm) from a rate (Hz, 1/s) on dimension 1/time.
type Mark uint8
const (
	Neutral Mark = iota
	Rotation
	Rate
)

// Kind is what the checker tracks of a number.
type Kind struct {
	Dim   Dimension
	Mark  Mark
	Point bool // a temperature on a scale, not a difference
}
func (k Kind) String() string // "a voltage (V)", "a pure number", "a rotation (rad/s)", "a temperature (°C)", "a temperature difference (K)", "a quantity in kg·m³"

// A Unit scales a number to coherent SI: si = number*Factor + Offset.
type Unit struct {
	Kind Kind
	// text, factor, offset …
}
func Parse(text string) (Unit, error) // *Error
func MustParse(text string) Unit
func (u Unit) ToSI(x float64) float64
func (u Unit) FromSI(si float64) float64
func (u Unit) String() string        // as the SI Brochure writes it; "" for the pure number 1
func (u Unit) Difference() Unit      // °C as a difference
func (u Unit) IsZero() bool          // no unit at all (zero value)

// Error says why a text is no unit.
type Error struct {
	Text       string
	Start, End int      // of the part at fault, in bytes of Text
	Says       string   // "kohm is no unit"
	Hint       string   // "write kΩ or kohm with a small k" …
	Suggest    string   // the nearest unit, "" if none
}
func (e *Error) Error() string

// Fitting is the unit that a number is shown in when the builder gave none.
func Fitting(k Kind, si float64) Unit

// Number writes x with that many significant digits, plain ASCII.
func Number(x float64, digits int) string

// Show writes an SI value in a unit: "12.5 F", "90°", "7.4 %", "4" for a pure number.
func Show(si float64, u Unit, digits int) string

// Names lists what Parse knows, for help: each unit with its meaning.
type Named struct { Symbol, Name, Meaning, Source string; Aliases []string; Prefixes bool; Unit Unit }
func All() []Named
