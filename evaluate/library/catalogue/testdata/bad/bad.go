// Package bad has declarations that the catalogue cannot read.
package bad

import (
	"elsewhere/other"

	"inkwing/evaluate/library/model"
)

type NoErrorInput struct{ X float64 }
type NoErrorResult struct{ X float64 }

func NoError(in NoErrorInput) NoErrorResult { return NoErrorResult(in) }

type ComplexInput struct{ X complex128 }
type Fine struct{ X float64 }

func Complex(in ComplexInput) (Fine, error) { return Fine{}, nil }

type HiddenInput struct {
	secret float64
	Log    []row
}
type row struct{ X float64 }

func Hidden(in HiddenInput) (Fine, error) { return Fine{}, nil }

type UnknownInput struct{ X other.Thing }

func Unknown(in UnknownInput) (Fine, error) { return Fine{}, nil }

type PointedInput struct{ *Fine }

func Pointed(in PointedInput) (Fine, error) { return Fine{}, nil }

type MuteResult struct{}

func Mute(in Fine) (MuteResult, error) { return MuteResult{}, nil }

func Twice(in Fine) (Fine, error) { return in, nil }

func TWICE(in Fine) (Fine, error) { return in, nil }

type Part struct{ model.Cautions }

type DoubleResult struct {
	X float64
	P Part
	model.Cautions
}

func Double(in Fine) (DoubleResult, error) { return DoubleResult{}, nil }
