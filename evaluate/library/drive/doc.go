// Package drive is the physics of what pulls the aircraft: motor, propeller,
// speed control and leads, and the supply of the radio beside them. It knows
// nothing of what they pull.
//
// Everything goes in and out in coherent SI; the unit in a field's tag is the
// one a worksheet shows. The functions are plain arithmetic and keep nothing,
// so they may run side by side.
package drive
