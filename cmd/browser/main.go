//go:build js && wasm

// Browser is the evaluator inside of a page that lives: built for js/wasm it gives
// the page's worker the functions open, begin, glance, work and keep. Text goes in and
// sections come out; there are no files and there is no network.
package main

import (
	"context"
	"errors"
	"runtime/debug"
	"syscall/js"

	"inkwing/worksheet/living"
)

// The collector works rarely, as long as there is memory: it is the page's own, and
// goes with it. A worker never gives back what it once took: for 500 numbers tried in
// the Lapwing journal that is 135 MiB, reached by 350. With twice as much allowed it was
// 248 MiB, and no quicker.
const (
	collectRarely = 400 // percent
	enough        = 128 << 20
)

func main() {
	debug.SetGCPercent(collectRarely)
	debug.SetMemoryLimit(enough)
	var sheet *living.Sheet
	js.Global().Set("open", js.FuncOf(func(_ js.Value, args []js.Value) any {
		opened, err := living.Open(context.Background(), []byte(args[0].String()), []byte(args[1].String()))
		if err != nil {
			return err.Error()
		}
		sheet = opened
		return ""
	}))
	js.Global().Set("begin", answering(func([]byte) ([]byte, error) { return nil, sheet.Begin(context.Background()) }))
	js.Global().Set("glance", answering(func(asked []byte) ([]byte, error) { return sheet.Glance(context.Background(), asked) }))
	js.Global().Set("work", answering(func(asked []byte) ([]byte, error) { return sheet.Work(context.Background(), asked) }))
	js.Global().Set("keep", answering(func(asked []byte) ([]byte, error) { return sheet.Keep(context.Background(), asked) }))
	select {}
}

var errBroken = errors.New("this cannot be worked: the evaluator failed")

// answering lets the worker call a function: it gives an answer and a problem, one of
// them empty.
func answering(f func([]byte) ([]byte, error)) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) (out any) {
		defer func() {
			if recover() != nil {
				out = []any{"", errBroken.Error()}
			}
		}()
		answer, err := f([]byte(args[0].String()))
		if err != nil {
			return []any{"", err.Error()}
		}
		return []any{string(answer), ""}
	})
}
