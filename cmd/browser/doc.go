//go:build !js

package main

import "fmt"

func main() {
	fmt.Println("This program runs inside of a page: build it with GOOS=js GOARCH=wasm, see .ci/evaluator.")
}
