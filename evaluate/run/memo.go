package run

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"math"
	"strings"
	"sync"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
)

// A Memo remembers what calls of the library came to, by the function and all the
// bits of its arguments: the physics is pure, so that the same call comes to the same
// again. It is for whoever works a page more than once, or pages that are alike, and
// several may be worked with it side by side. It changes how long an answer
// takes, and never which it is.
//
// What has not been asked for in a long while is forgotten: calls are kept in two
// generations, and the older one goes when the younger is full.
type Memo struct {
	mu         sync.Mutex
	young, old shelf
	bytes      int // about what the younger generation holds
}

// A shelf is what one generation holds: calls, and parts of answers that calls have in common.
type shelf struct {
	calls map[call]*answer
	parts map[any]kept
}

// A kept part of answers, and how many bytes it takes.
type kept struct {
	part  any
	bytes int
}

// generation is about how many bytes one generation of a memo holds: the calls of some
// fifty pages with every interval carried, or a few thousand simulations.
const generation = 24 << 20

// A call is a function with its arguments, as [appendValue] writes them. What was
// called for its cautions too answers one that is quiet, and not the other way.
type call struct {
	of        *library.Function
	arguments string
	quiet     bool   // without the cautions that take work
	without   string // and without what nobody asks for
}

// An answer is what a call came to. Nobody writes to it.
type answer struct {
	out      any
	cautions []model.Caution
	err      error
}

// NewMemo is a memo that remembers nothing yet.
func NewMemo() *Memo { return new(Memo) }

type memoKey struct{}

// Remembering is a context whose runs look into a memo before they call the library.
// It goes the way of the deadline, and not of the arguments, since no answer depends
// on it.
func Remembering(ctx context.Context, m *Memo) context.Context {
	return context.WithValue(ctx, memoKey{}, m)
}

// memoOf is the memo of a context, or a new one: within one run, too, much is asked
// twice, as where an input that moves a table bears on another row.
func memoOf(ctx context.Context) *Memo {
	if m, ok := ctx.Value(memoKey{}).(*Memo); ok && m != nil {
		return m
	}
	return NewMemo()
}

// call is what a function comes to, remembered or not. Simple arithmetic is worked
// anew: that is quicker than to look it up.
//
// Without are the fields that nobody asks for, in a quiet context.
func (m *Memo) call(ctx context.Context, f *library.Function, args []any, without []string) (any, []model.Caution, error) {
	if m == nil || f.Topic == "plain" {
		return ask(ctx, f, args, without)
	}
	key, a, ok := m.known(f, args, model.IsQuiet(ctx), strings.Join(without, " "))
	if !ok {
		return ask(ctx, f, args, without)
	}
	if a != nil {
		return a.out, a.cautions, a.err
	}
	if f.Iterates {
		ctx = model.Sharing(ctx, m)
	}
	a = new(answer)
	a.out, a.cautions, a.err = ask(ctx, f, args, without)
	if a.err == nil || ctx.Err() == nil { // one that was told to stop says nothing of the call
		m.keep(key, a)
	}
	return a.out, a.cautions, a.err
}

func ask(ctx context.Context, f *library.Function, args []any, without []string) (any, []model.Caution, error) {
	if len(without) == 0 {
		return f.Call(ctx, args)
	}
	out, err := f.CallWithout(ctx, args, without)
	return out, nil, err
}

// writing holds room to write arguments in: most calls are known, and need no key of their own.
var writing = sync.Pool{New: func() any { return new([]byte) }}

// known is the answer to a call that is remembered, nil if it is not, with the key under which
// to keep it; false where it cannot be kept.
func (m *Memo) known(f *library.Function, args []any, quiet bool, without string) (key call, a *answer, ok bool) {
	written := writing.Get().(*[]byte)
	defer writing.Put(written)
	text, ok := appendKey((*written)[:0], f, args)
	if !ok {
		return key, nil, false
	}
	*written = text
	if a = m.findMore(f, text, quiet, without); a == nil {
		key = call{f, string(text), quiet, without}
	}
	return key, a, true
}

// findMore is the answer to a call with as much as is asked for, or more: what was called
// for its cautions too answers one that is quiet, and that with all fields one that asks
// for some.
func (m *Memo) findMore(f *library.Function, arguments []byte, quiet bool, without string) *answer {
	m.mu.Lock()
	defer m.mu.Unlock()
	a := m.find(f, arguments, false, "")
	if a == nil && quiet {
		a = m.find(f, arguments, true, "")
	}
	if a == nil && without != "" {
		a = m.find(f, arguments, quiet, without)
	}
	return a
}

// find looks into both generations, and makes what it finds in the older one young.
func (m *Memo) find(f *library.Function, arguments []byte, quiet bool, without string) *answer {
	if a := m.young.calls[call{f, string(arguments), quiet, without}]; a != nil { // which copies nothing
		return a
	}
	a := m.old.calls[call{f, string(arguments), quiet, without}]
	if a != nil {
		m.put(call{f, string(arguments), quiet, without}, a)
	}
	return a
}

func (m *Memo) keep(key call, a *answer) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.put(key, a)
}

// put keeps an answer among the young, which become the old when they are many.
func (m *Memo) put(key call, a *answer) {
	m.grow(len(key.arguments) + sizeOf(a.out) + 100*len(a.cautions))
	m.young.calls[key] = a
}

// grow makes room among the young.
func (m *Memo) grow(bytes int) {
	const each = 200 // of the map, and what an answer is held by
	m.bytes += each + bytes
	if m.bytes > generation {
		m.old, m.young, m.bytes = m.young, shelf{}, 0
	}
	if m.young.calls == nil {
		m.young = shelf{map[call]*answer{}, map[any]kept{}}
	}
}

// Part is a part of an answer that another call kept.
func (m *Memo) Part(key any) (any, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	k, ok := m.young.parts[key]
	if !ok {
		if k, ok = m.old.parts[key]; ok {
			m.grow(k.bytes)
			m.young.parts[key] = k
		}
	}
	return k.part, ok
}

// KeepPart keeps one among the young.
func (m *Memo) KeepPart(key, part any, bytes int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.grow(bytes)
	m.young.parts[key] = kept{part, bytes}
}

// sizeOf is about how many bytes a value holds.
func sizeOf(v any) int {
	const word = 24 // an interface and what it points to
	size := word
	switch x := v.(type) {
	case string:
		size += len(x)
	case library.List:
		for _, e := range x {
			size += sizeOf(e)
		}
	case library.Record:
		for _, e := range x {
			size += sizeOf(e)
		}
	case library.Rows:
		const columns = 8
		size += x.Len() * columns * word / 3 // numbers side by side
	}
	return size
}

// longKey is the length from which arguments are remembered by their digest.
const longKey = 1 << 10

// longestKey is that beyond which they are not remembered at all.
const longestKey = 1 << 20

// appendKey writes under what arguments of a call are found; false where one is of no kind
// that is known here, or too much.
func appendKey(key []byte, f *library.Function, args []any) ([]byte, bool) {
	ok := true
	for i := range args {
		if key, ok = appendValue(key, &f.Params[i].Shape, args[i]); !ok || len(key) > longestKey {
			return nil, false
		}
	}
	if len(key) > longKey {
		sum := sha256.Sum256(key)
		key = append(append(key[:0], '#'), sum[:]...) // no other key begins so
	}
	return key, true
}

// appendValue writes a value such that no two are written alike: its kind, and all of
// its bits.
func appendValue(b []byte, shape *library.Shape, v any) ([]byte, bool) {
	switch x := v.(type) {
	case nil:
		return append(b, '0'), true
	case float64:
		return binary.LittleEndian.AppendUint64(append(b, 'f'), math.Float64bits(x)), true
	case bool:
		if x {
			return append(b, 'y'), true
		}
		return append(b, 'n'), true
	case string:
		return append(binary.AppendUvarint(append(b, 's'), uint64(len(x))), x...), true
	case library.Never:
		return append(b, 'x'), true
	case library.List:
		return appendList(append(b, 'l'), shape, x)
	case library.Record:
		return appendRecord(append(b, 'r'), shape, x)
	case library.Rows:
		return appendRows(append(b, 't'), shape, x)
	}
	return nil, false
}

// appendList writes a list, or a table that is given as a list of records.
func appendList(b []byte, shape *library.Shape, list library.List) ([]byte, bool) {
	elem := shape
	if shape.Kind == library.ListOf {
		elem = shape.Elem
	}
	b = binary.AppendUvarint(b, uint64(len(list)))
	ok := true
	for _, x := range list {
		if b, ok = appendValue(b, elem, x); !ok {
			return nil, false
		}
	}
	return b, true
}

func appendRecord(b []byte, shape *library.Shape, record library.Record) ([]byte, bool) {
	if len(record) > len(shape.Params) {
		return nil, false
	}
	b = binary.AppendUvarint(b, uint64(len(record)))
	ok := true
	for i, x := range record {
		if b, ok = appendValue(b, &shape.Params[i].Shape, x); !ok {
			return nil, false
		}
	}
	return b, true
}

// appendRows writes the columns of a table that a function reads.
func appendRows(b []byte, shape *library.Shape, rows library.Rows) ([]byte, bool) {
	if shape.Kind != library.Table {
		return nil, false
	}
	b = binary.AppendUvarint(b, uint64(rows.Len()))
	ok := true
	for i := range rows.Len() {
		for c := range shape.Params {
			if b, ok = appendValue(b, &shape.Params[c].Shape, rows.Cell(i, c)); !ok || len(b) > longestKey {
				return nil, false
			}
		}
	}
	return b, true
}
