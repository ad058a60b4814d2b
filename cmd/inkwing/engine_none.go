//go:build !live

package main

import "inkwing/worksheet/living"

// engine is nil: this program was built without the evaluator for the browser.
func engine() *living.Engine { return nil }
