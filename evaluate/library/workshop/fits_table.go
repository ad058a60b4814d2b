package workshop

// The tables of ISO 286-1, from memory; micrometres by the range of nominal size. A test
// holds them against the standard's own formulas, of which they are the rounded values.

// sizes are the upper ends of the ranges, mm.
var sizes = [...]float64{3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500}

// A line is a value for each range.
type line [len(sizes)]float64

// leastGrade is the first of grades.
const leastGrade = 5

// grades are the standard tolerances IT5 to IT13.
var grades = [...]line{
	{4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27},
	{6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40},
	{10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63},
	{14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97},
	{25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155},
	{40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250},
	{60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400},
	{100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630},
	{140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970},
}

// deviations are the fundamental ones of shafts: below the nominal size for d to g,
// above it for k to p; k is 0 from grade 8 up.
var deviations = map[string]line{
	"d": {20, 30, 40, 50, 65, 80, 100, 120, 145, 170, 190, 210, 230},
	"e": {14, 20, 25, 32, 40, 50, 60, 72, 85, 100, 110, 125, 135},
	"f": {6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68},
	"g": {2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20},
	"k": {0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5},
	"m": {2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23},
	"n": {4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40},
	"p": {6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68},
}
