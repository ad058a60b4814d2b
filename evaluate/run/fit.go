package run

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
)

// fit turns a record or table into the wanted shape.
func (m *Machine) fit(x *program.Fit) (any, *Fault) {
	v, f := m.value(x.X)
	if f != nil {
		return nil, f
	}
	switch rows := v.(type) {
	case library.Rows:
		return m.fitRows(x, rows)
	case library.List:
		return m.fitRows(x, records(rows))
	case library.Record:
		if x.Rows {
			return m.fitRows(x, records{rows})
		}
	}
	return pick(x, x.Picks, v.(library.Record), "")
}

// given is a field's value; an empty cell of one that may be left out is left
// out.
func given(p program.Pick, v any, at program.Node) (any, *Fault) {
	switch v.(type) {
	case program.Unknown, library.Never:
		if p.Param.Optional {
			return nil, nil
		}
	}
	return known(v, at)
}

func pick(x *program.Fit, picks []program.Pick, from library.Record, path string) (any, *Fault) {
	out := make(library.Record, len(picks))
	for i, p := range picks {
		if p.Index < 0 {
			out[i] = p.Default
			continue
		}
		v, f := given(p, from[p.Index], x)
		if v == nil && f == nil {
			if out[i] = p.Default; p.Default == nil && !p.Param.Optional {
				return nil, notKnown(path+p.Param.Name, x)
			}
			continue
		}
		if f == nil && p.Nested != nil {
			v, f = pick(x, p.Nested, v.(library.Record), path+p.Param.Name+".")
		}
		if f == nil {
			f = inRange(p.Param, path+p.Param.Name, v, x.Place())
		}
		if f != nil {
			return nil, f
		}
		out[i] = v
	}
	return out, nil
}

// records is a list of records seen as a table.
type records library.List

// Len is the number of records.
func (r records) Len() int { return len(r) }

// Cell is a field of a record.
func (r records) Cell(row, column int) any { return r[row].(library.Record)[column] }

// fitRows picks the wanted columns, all rows at once.
func (m *Machine) fitRows(x *program.Fit, rows library.Rows) (any, *Fault) {
	if f := m.spend(rows.Len(), x); f != nil {
		return nil, f
	}
	out := make(library.List, rows.Len())
	for r := range out {
		record := make(library.Record, 0, len(x.Picks))
		for _, p := range x.Picks {
			if p.Index < 0 {
				record = append(record, p.Default)
				continue
			}
			v, f := given(p, rows.Cell(r, p.Index), x)
			if f == nil && p.Nested != nil {
				v, f = pick(x, p.Nested, v.(library.Record), p.Param.Name+".")
			}
			if f == nil && v != nil {
				f = inRange(p.Param, p.Param.Name, v, x.Place())
			}
			if f != nil {
				return nil, f
			}
			record = append(record, v)
		}
		out[r] = record
	}
	return out, nil
}
