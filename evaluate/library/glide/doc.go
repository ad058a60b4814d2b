// Package glide is the physics of the aircraft: the air it flies in, the
// airframe, gliding and turning, its motor and propeller, its balance.
//
// Everything goes in and out in coherent SI; the unit in a field's tag is the
// one a worksheet shows. The functions are plain arithmetic and keep nothing,
// so they may run side by side.
package glide

// gravity is standard gravity, m/s² (SI Brochure; exact by convention).
const gravity = 9.80665
