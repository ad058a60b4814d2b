package wire

import (
	"path"

	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// A Chart is a drawing beside the worksheet.
type Chart struct {
	Path   string `json:"path"`
	Line   int    `json:"line"` // 0 for a file that is left over
	Title  string `json:"title"`
	Alt    string `json:"alt"`
	State  string `json:"state"`  // of the file when the worksheet was worked: fresh, stale, missing, left over; waiting for a chart without one
	Change string `json:"change"` // what the run did: written, removed; else empty
}

// charts lists the charts of an outcome, then the files left over.
func (f former) charts(o Outcome) (list []Chart) {
	files := map[string]worksheet.ChartFile{}
	for _, c := range o.Result.Charts {
		files[c.Path] = c
	}
	if o.Result.Report != nil {
		for _, b := range o.Result.Report.Blocks {
			for _, c := range b.Charts {
				list = append(list, f.chart(o, c, files))
			}
		}
	}
	for _, c := range o.Result.Charts {
		if c.New == nil {
			list = append(list, f.file(o, c))
		}
	}
	return list
}

func (f former) chart(o Outcome, c report.Chart, files map[string]worksheet.ChartFile) Chart {
	x := Chart{Line: f.line(c.Span), Title: c.Title, Alt: c.Alt, State: "waiting"}
	if c.State != report.Evaluated {
		return x
	}
	at := path.Join(path.Dir(f.name), c.File)
	x.Path, x.State = f.places.Display(at), "fresh"
	if file, differs := files[at]; differs {
		drawn := f.file(o, file)
		x.State, x.Change = drawn.State, drawn.Change
	}
	return x
}

func (f former) file(o Outcome, c worksheet.ChartFile) Chart {
	before, done := c.States()
	x := Chart{Path: f.places.Display(c.Path), State: before}
	if o.Written {
		x.Change = done
	}
	return x
}
