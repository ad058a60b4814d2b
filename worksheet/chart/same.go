package chart

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
)

// paths are where a drawing holds coordinates of data.
var paths = regexp.MustCompile(` d="[^"]*"`)

// number is one coordinate of a path.
var number = regexp.MustCompile(`-?[0-9]+(?:\.[0-9]+)?`)

// sway is how far a coordinate may be off: what the last digits of a value do to
// one that is rounded to tenths, on another processor.
const sway = 0.101

// Same reports whether two files are the same chart. A checkout may have turned the
// line ends, and places of the data may differ by what cannot be seen.
func Same(a, b []byte) bool {
	if bytes.Equal(a, b) {
		return true
	}
	a, b = unix(a), unix(b)
	inA, inB := paths.FindAll(a, -1), paths.FindAll(b, -1)
	if len(inA) != len(inB) || !bytes.Equal(paths.ReplaceAll(a, nil), paths.ReplaceAll(b, nil)) {
		return false
	}
	for i := range inA {
		if !samePath(inA[i], inB[i]) {
			return false
		}
	}
	return true
}

func samePath(a, b []byte) bool {
	inA, inB := number.FindAll(a, -1), number.FindAll(b, -1)
	if len(inA) != len(inB) || !bytes.Equal(number.ReplaceAll(a, nil), number.ReplaceAll(b, nil)) {
		return false
	}
	for i := range inA {
		x, errX := strconv.ParseFloat(string(inA[i]), 64)
		y, errY := strconv.ParseFloat(string(inB[i]), 64)
		if errX != nil || errY != nil || math.Abs(x-y) > sway {
			return false
		}
	}
	return true
}

func unix(text []byte) []byte { return bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")) }
