package page

import (
	"encoding/binary"
	"math"
	"reflect"

	"github.com/yuin/goldmark/ast"

	"inkwing/worksheet/markdown"
)

// A Memory remembers parts of a page from one [Make] to the next, for whoever lays a page
// out again and again, of which little is otherwise each time. It changes how long that
// takes, and never what comes of it. One page at a time may be made with it.
//
// What is remembered is made by functions that look at nothing but their input, and stands
// under the whole of that. What neither the last Make nor the one before has asked for is
// forgotten, so that a memory holds about as much as the page.
type Memory struct {
	parts map[string]*memorized
	made  int    // how many pages were made with it
	key   []byte // of what is looked for

	document *markdown.Document // the last one
	markdown ast.Node           // what it holds
}

// A memorized part, and by which Make it was last asked for.
type memorized struct {
	part  any
	asked int
}

// NewMemory is a memory that remembers nothing yet.
func NewMemory() *Memory { return &Memory{parts: map[string]*memorized{}} }

// forget lets go what the last two pages did without. It is called behind each.
func (m *Memory) forget() {
	if m == nil {
		return
	}
	for key, p := range m.parts {
		if p.asked < m.made-1 {
			delete(m.parts, key)
		}
	}
	m.made++
}

// remembered is what a function makes of its input, which is all that it may look at: it has
// to be one of the package, that no receiver and no closure lets at anything else. Kind is
// its name. Inputs are texts, numbers, and structs and lists of them.
func remembered[In, Out any](m *Memory, kind string, in In, of func(In) Out) Out {
	if m == nil {
		return of(in)
	}
	m.key = appendKey(appendKey(m.key[:0], reflect.ValueOf(kind)), reflect.ValueOf(in))
	p := m.parts[string(m.key)]
	if p == nil {
		key := string(m.key) // before what it makes looks for something itself
		p = &memorized{part: of(in)}
		m.parts[key] = p
	}
	p.asked = m.made
	return p.part.(Out)
}

// tree is the Markdown of a document, which is read once while its page is tried with other
// values. Nobody writes to a document.
func (m *Memory) tree(d *markdown.Document) ast.Node {
	if m == nil {
		return treeOf(d)
	}
	if m.document != d {
		m.document, m.markdown = d, treeOf(d)
	}
	return m.markdown
}

// appendKey writes a value such that no two of one type are written alike.
func appendKey(b []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.String:
		return append(binary.AppendUvarint(b, uint64(v.Len())), v.String()...)
	case reflect.Bool:
		if v.Bool() {
			return append(b, 1)
		}
		return append(b, 0)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return binary.AppendVarint(b, v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return binary.AppendUvarint(b, v.Uint())
	case reflect.Float64:
		return binary.LittleEndian.AppendUint64(b, math.Float64bits(v.Float()))
	case reflect.Slice:
		if v.IsNil() {
			return append(b, 0)
		}
		return appendElements(binary.AppendUvarint(b, uint64(v.Len())+1), v)
	case reflect.Struct:
		for i := range v.NumField() {
			b = appendKey(b, v.Field(i))
		}
		return b
	}
	panic("page: nothing is remembered by a " + v.Kind().String())
}

func appendElements(b []byte, list reflect.Value) []byte {
	for i := range list.Len() {
		b = appendKey(b, list.Index(i))
	}
	return b
}
