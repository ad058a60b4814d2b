//go:build live

package main

import (
	_ "embed"
	"strconv"

	"inkwing/worksheet/living"
)

// What .ci/evaluator builds.
var (
	//go:embed evaluator/evaluator.lzma
	evaluatorPacked []byte
	//go:embed evaluator/size
	evaluatorSize string
	//go:embed evaluator/wasm_exec.js
	evaluatorGlue string
)

// engine is the evaluator that pages which live carry.
func engine() *living.Engine {
	size, err := strconv.Atoi(evaluatorSize)
	if err != nil {
		panic(err) // .ci/evaluator wrote it
	}
	return &living.Engine{Packed: evaluatorPacked, Size: size, Glue: evaluatorGlue}
}
