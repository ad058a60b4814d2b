// Package plain holds the functions that every worksheet needs: roots, powers,
// angles, columns, rounding and interpolation.
//
// Its numbers may have any dimension where that has a meaning. A value of such
// a number in an error has the unit "", which is the coherent SI unit of the
// input that the error names.
//
// Validity: any number.
// Source: NIST Digital Library of Mathematical Functions, chapter 4; worked in IEEE 754 double precision.
package plain
