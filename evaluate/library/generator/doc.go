// Package generator is the physics of a small permanent-magnet generator and
// what turns it: wire and coils, magnets, the emf of a set of coils, bridge
// rectifiers, gears, and the charging of a store by hand.
//
// Everything is float64 in coherent SI: temperatures in kelvin, rotations in
// rad/s. Functions take one struct and answer with another; the tags say how
// the language shows them, not what is in them.
package generator
