package working

import (
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
)

// Named finds the definition that a name with dots begins with, and the fields
// behind it.
func (e *Evaluation) Named(name string) (d *program.Def, fields []string, ok bool) {
	parts := strings.Split(name, ".")
	d, fields = e.Program.Main.Names[parts[0]], parts[1:]
	if used := e.Program.Main.Uses[parts[0]]; d == nil && used != nil && len(fields) > 0 {
		d, fields = used.Names[fields[0]], fields[1:]
	}
	return d, fields, d != nil
}

// Lookup follows fields into what a definition came to. The type is nil where
// it could not be checked, the value nil where it could not be evaluated; path is
// the places of the fields.
func (e *Evaluation) Lookup(d *program.Def, fields []string) (t program.Type, value any, path []int, ok bool) {
	t, value = d.Type, e.Machine.Value(d)
	for _, field := range fields {
		if t == nil {
			return nil, nil, nil, true
		}
		record, ok := t.(*program.Record)
		if !ok {
			return nil, nil, nil, false
		}
		i := record.Index(field)
		if i < 0 {
			return nil, nil, nil, false
		}
		t, path = record.Fields[i].Type, append(path, i)
		if value != nil {
			value = value.(library.Record)[i]
		}
	}
	if _, unknown := value.(program.Unknown); unknown {
		value = nil
	}
	return t, value, path, true
}
