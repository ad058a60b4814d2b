//go:build live

package main

import (
	_ "embed"

	"inkwing/worksheet/living"
)

// What .ci/evaluator builds.
var (
	//go:embed evaluator/evaluator.xz
	evaluatorPacked []byte
	//go:embed evaluator/unpacker.js
	evaluatorUnpacker string
	//go:embed evaluator/wasm_exec.js
	evaluatorGlue string
)

// engine is the evaluator that pages which live carry.
func engine() *living.Engine {
	return &living.Engine{Packed: evaluatorPacked, Unpacker: evaluatorUnpacker, Glue: evaluatorGlue}
}
