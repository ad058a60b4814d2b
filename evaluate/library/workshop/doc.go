// Package workshop is what the bench asks beside the physics: what a printed part
// weighs and whether it goes on the bed, how holes and pins fit, and which values
// resistors come in.
//
// As in the physics, a function goes from one struct to another in coherent SI.
package workshop
