// Package energy is the physics of the store: capacitors and packs of them,
// what they hold, how long they carry a load, how a string of cells shares its
// voltage, what the bench says of them, and what else could carry the energy.
//
// Every function goes from one struct to another, in coherent SI: volts,
// farads, ohms, kelvins and seconds, whatever a tag shows them in. A caution
// comes with an answer; an error only where an answer would have no meaning.
//
// A store is a capacitance behind a constant resistance. Real double-layer cells
// hold more at a higher voltage, and settle after a fast charge: a slope and a slow
// branch say so where they are known, and where not, cautions do.
package energy
