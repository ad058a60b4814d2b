package living

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"strings"

	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

// An Engine is the evaluator for the browser: what cmd/browser builds to.
type Engine struct {
	Packed   []byte // WebAssembly, by xz
	Unpacker string // the script of xz-decompress, which undoes that
	Glue     string // the script of the Go distribution that runs it
}

//go:embed worker.js
var worker string

//go:embed transport.js
var transport string

// Hint tells a reader, ahead of the page, what can be done with it.
const Hint = `<aside class="back" aria-label="Trying values">Press a value with a dashed line to try another. All is worked again in this page: nothing leaves it.</aside>` + "\n"

// policy is what such a page may do beside being read: run its own script, and in a
// worker made from a text of that script the evaluator.
const policy = "worker-src blob:"

// Document is the page of what is carried, with the evaluator in it. Carried is the
// pack as it stands in a page.
func Document(ctx context.Context, pack *packing.Pack, carried string, engine Engine, f page.Frame) ([]byte, error) {
	text, err := pack.Read(pack.Sheet)
	if err != nil {
		return nil, err
	}
	if len(engine.Packed) == 0 {
		return nil, errors.New("carries no evaluator")
	}
	room := reading.Open(pack, pack.Sheet, text, reading.Options{Link: pack.Link()})
	f.After += carried + engine.html()
	f.Script, f.Policy, f.Wasm = engine.script(), policy, true
	return room.Document(ctx, f)
}

const opening = "<!-- evaluator: "

// Is reports whether a page carries an evaluator, or says that it does.
func Is(html []byte) bool { return bytes.Contains(html, []byte(opening)) }

// html is the comment that carries the evaluator.
func (e Engine) html() string {
	return opening + dense(e.Packed) + " -->\n"
}

// script is how the page reaches the evaluator: its worker as a text, and the
// transport.
func (e Engine) script() string {
	text, err := json.Marshal(e.Glue + "\n" + e.Unpacker + "\n" + worker) // it writes < as \u003c
	if err != nil {
		panic(err) // a text only
	}
	return "const program = " + string(text) + ";\n" + transport
}

// digits are 85 characters, none of which could end a comment or begin an element.
const digits = "!#$%()*+,./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`abcdefghijklmnopqrstuvwxyz{|"

// dense writes four bytes as five characters, where base64 needs more than those.
// Zeros fill the last four up; of xz, whose files are of whole fours, there are none.
func dense(data []byte) string {
	var out strings.Builder
	out.Grow(len(data)/4*5 + 5)
	for at := 0; at < len(data); at += 4 {
		var four [4]byte
		copy(four[:], data[at:])
		n := uint32(four[0])<<24 | uint32(four[1])<<16 | uint32(four[2])<<8 | uint32(four[3])
		var five [5]byte
		for i := 4; i >= 0; i-- {
			five[i] = digits[n%85]
			n /= 85
		}
		out.Write(five[:])
	}
	return out.String()
}
