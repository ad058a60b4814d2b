package working

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
)

// Numbers are those that the sheet's quantities came to, in coherent SI: fields by
// their record's name and their own.
func (e *Evaluation) Numbers() map[string]float64 {
	found := map[string]float64{}
	for _, d := range e.Program.Main.Defs {
		if state, _ := e.State(d); d.Name == "" || state != report.Evaluated {
			continue
		}
		switch d.Body.(type) {
		case *program.Value, *program.Study:
			numbers(d.Name, d.Type, e.Machine.Value(d), found)
		}
	}
	return found
}

func numbers(name string, t program.Type, value any, found map[string]float64) {
	switch v := value.(type) {
	case float64:
		found[name] = v
	case library.Record:
		for i, f := range t.(*program.Record).Fields {
			numbers(name+"."+f.Name, f.Type, v[i], found)
		}
	}
}
