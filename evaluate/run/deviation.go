package run

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/program"
)

// uncertain is a value that lies off its nominal, if a study says so.
func (m *Machine) uncertain(x *program.Uncertain) (any, *Fault) {
	v, f := m.value(x.X)
	by := m.deviation(x.Deviation)
	if f != nil || by == 0 {
		return v, f
	}
	list, ok := v.(library.List)
	if !ok {
		return shifted(v.(float64), by, x.Relative), nil
	}
	out := make(library.List, len(list))
	for i, one := range list {
		out[i] = deviated(one.(float64), by, x.Relative)
	}
	return out, nil
}

// deviation is how far an uncertain value lies off its nominal now.
func (m *Machine) deviation(d *program.Def) float64 {
	by, _ := m.values.at(d.ID).(float64)
	return by
}

// shifted is a value that lies off its nominal, upwards for a deviation above
// zero: a part of a negative value is taken of its size.
func shifted(v, by float64, part bool) float64 {
	if part && v < 0 {
		by = -by
	}
	return deviated(v, by, part)
}

// deviated is one reading of an instrument, whose part is a factor that all of its
// readings have in common.
func deviated(v, by float64, part bool) float64 {
	if part {
		return v * (1 + by)
	}
	return v + by
}

// uncertainCall is a call's answer, each field that knows its uncertainty off its
// nominal.
func (m *Machine) uncertainCall(x *program.UncertainCall) (any, *Fault) {
	v, f := m.call(x.X)
	if f != nil {
		return nil, f
	}
	for i, d := range x.Deviations {
		by := m.deviation(d)
		if by == 0 {
			continue
		}
		if x.Fields[i] < 0 {
			return v.(float64) + by, nil
		}
		record := append(library.Record{}, v.(library.Record)...)
		if at, ok := record[x.Fields[i]].(float64); ok {
			record[x.Fields[i]] = at + by
		}
		v = record
	}
	return v, nil
}

// data is a data table, with the cells that lie off their nominals.
func (m *Machine) data(d *program.Data) *program.Rows {
	var moved map[program.UncertainCell]float64
	for _, cell := range d.Rows.Uncertain {
		by := m.deviation(cell.Value.Deviation)
		if by == 0 {
			continue
		}
		if moved == nil {
			moved = map[program.UncertainCell]float64{}
		}
		moved[cell] = shifted(d.Rows.Cell(cell.Row, cell.Column).(float64), by, cell.Value.Relative)
	}
	if moved == nil {
		return d.Rows
	}
	return d.Rows.With(moved)
}

// Estimate says how sure the answer of a call is, with the values as they stand.
func (m *Machine) Estimate(x *program.UncertainCall) (model.Estimate, error) {
	args, f := m.arguments(x.X)
	if f != nil {
		return model.Estimate{}, f
	}
	return x.X.Func.Estimate(m.ctx, args)
}
