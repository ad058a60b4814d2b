package main

import (
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// showChanges prints a line for each change: name  old → new  (+17 %).
func (t *tool) showChanges(s *stream, r *worksheet.Result) {
	for _, c := range r.Changes {
		s.printf("  %s\n", s.change(c.Name, c.Old, c.New, report.Percent(c.Share)))
	}
}

// change writes name  old → new  (+17 %).
func (s *stream) change(name, old, now, percent string) string {
	line := visible(name) + "  " + visible(old) + " → " + visible(now)
	if percent != "" {
		line += "  " + s.dim("("+percent+")")
	}
	return line
}
