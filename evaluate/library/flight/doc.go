// Package flight is the physics of an aircraft with its drive and its store on
// board: level flight and climb, a whole flight from the launch to the
// landing, and the voltage from which one may go.
//
// Everything goes in and out in coherent SI; the unit in a field's tag is the
// one a worksheet shows. The functions keep nothing, so they may run side by
// side.
package flight
