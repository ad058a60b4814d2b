// Package glide is the physics of the aircraft without its drive: the air it
// flies in, the airframe, gliding and turning, its balance and what its wing
// bears.
//
// Everything goes in and out in coherent SI; the unit in a field's tag is the
// one a worksheet shows. The functions are plain arithmetic and keep nothing,
// so they may run side by side.
package glide

// gravity is standard gravity, m/s² (SI Brochure; exact by convention).
const gravity = 9.80665
