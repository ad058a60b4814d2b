package beginning

import (
	"errors"
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// memory is a folder of pages.
type memory map[string][]byte

func (m memory) Read(name string) ([]byte, error) {
	if text, ok := m[name]; ok {
		return text, nil
	}
	return nil, errors.New("does not exist")
}

func (m memory) List(string) ([]string, error) { return nil, nil }

// every calls f with each journal that there is.
func every(t *testing.T, f func(t *testing.T, files memory)) {
	for _, part := range Parts {
		for _, units := range Units {
			t.Run(part+" "+units, func(t *testing.T) {
				pages, err := Pages(Plan{"First", part, units})
				if err != nil {
					t.Fatal(err)
				}
				files := memory{}
				for _, p := range pages {
					files[p.Name] = p.Text
				}
				f(t, files)
			})
		}
	}
}

// TestWorks wants pages without an error, with every limit kept, and with no more
// cautions than half a screen of 66 lines holds, at 110 characters.
func TestWorks(t *testing.T) {
	every(t, func(t *testing.T, files memory) {
		cautions := 0
		for name, text := range files {
			if path.Ext(name) != ".md" {
				continue
			}
			r := worksheet.WorkText(t.Context(), files, name, text)
			source := message.NewSource(name, text)
			for _, d := range append(r.Refused, r.Report.Errors...) {
				t.Error(message.Render(d, source))
			}
			for _, l := range r.Report.Limits {
				if l.State != report.Evaluated || !l.Holds {
					t.Errorf("%s: limit %s does not hold: %s against %s", name, l.Text, l.Value, l.Allowed)
				}
			}
			if len(r.Report.Limits) == 0 {
				t.Errorf("%s has no limit", name)
			}
			for _, line := range strings.Split(string(r.Output), "\n") {
				if regexp.MustCompile(`^> (Caution|Warning|Note): `).MatchString(line) {
					cautions += 1 + len(line)/110
				}
			}
			if strings.Contains(string(r.Output), "= ?`") {
				t.Errorf("%s: a value in the prose was not worked", name)
			}
		}
		if cautions > 33 {
			t.Errorf("%d lines of cautions", cautions)
		}
	})
}

// number is a number that stands for something of the builder's.
var number = regexp.MustCompile(`(^|[ (\[:-])[0-9][0-9_.]*`)

// TestGuesses wants every plain value marked as the guess that it is.
func TestGuesses(t *testing.T) {
	every(t, func(t *testing.T, files memory) {
		for name, text := range files {
			working := false
			for _, line := range strings.Split(string(text), "\n") {
				switch {
				case strings.HasPrefix(line, "```"):
					working = line == "```working"
				case !working, strings.HasPrefix(line, "digits "), strings.HasPrefix(line, "limit "), strings.HasPrefix(line, "  "), strings.HasPrefix(line, "chart "):
				case strings.Contains(line, "("): // a call: what it takes has names
					if n := number.FindString(line); n != "" && !strings.Contains(line, "40 °C") && !strings.Contains(line, "climb_rate: 0 m/s") && !strings.Contains(line, "phases: 3") {
						t.Errorf("%s: %s: %s is nobody's guess", name, line, n)
					}
				case number.MatchString(line) && !strings.Contains(line, "# guess"):
					t.Errorf("%s: %s", name, line)
				}
			}
		}
	})
}

// TestUnits wants no metric length or mass on an inch builder's page.
func TestUnits(t *testing.T) {
	metric := regexp.MustCompile(`[0-9?] (mm|cm|m|g|kg|m/s|N·m)([ ,;)\x60]|$)|\[(mm|m|g|N·m|m/s|N)\]`)
	inch := regexp.MustCompile(`[0-9?] (in|ft|oz|mph|lbf·ft|ozf)\b|\[(in|ft|oz|mph|ozf)\]`)
	every(t, func(t *testing.T, files memory) {
		other := inch
		if strings.HasSuffix(t.Name(), "inch") {
			other = metric
		}
		for name, text := range files {
			for _, line := range strings.Split(string(text), "\n") {
				// Propellers are sold by the inch everywhere.
				if other.MatchString(line) && !strings.HasPrefix(line, "diameter = ") && !strings.Contains(line, "climb_rate: 0 m/s") {
					t.Errorf("%s: %s", name, line)
				}
			}
		}
	})
}

func TestNoSuchPlan(t *testing.T) {
	for _, p := range []Plan{{"x", "boat", "metric"}, {"x", "pack", "cubit"}} {
		if _, err := Pages(p); err == nil {
			t.Errorf("%v", p)
		}
	}
}

// TestAllPagesUsed wants no page in the folder that no plan uses.
func TestAllPagesUsed(t *testing.T) {
	entries, err := fs.ReadDir(pages, "pages")
	if err != nil || len(entries) != 3 {
		t.Errorf("%v, %v", entries, err)
	}
}
