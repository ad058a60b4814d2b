package packing

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"
)

// Files is how a run reaches files.
type Files interface {
	Read(path string) ([]byte, error)
	List(folder string) ([]string, error)
}

// A Collector passes on what is asked of Files, and packs what was read. Several
// goroutines may ask at once.
type Collector struct {
	Files
	mu   sync.Mutex
	pack Pack
	err  error // why something that was read cannot be carried
}

// Collect packs a worksheet and all that is read through the collector from then on.
func Collect(files Files, sheet string, text []byte) *Collector {
	c := &Collector{Files: files, pack: Pack{Sheet: sheet}}
	c.add(sheet, text)
	return c
}

// Read reads a file, and packs it.
func (c *Collector) Read(name string) ([]byte, error) {
	text, err := c.Files.Read(name)
	if err == nil {
		c.add(path.Clean(name), text)
	}
	return text, err
}

func (c *Collector) add(name string, text []byte) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if err := c.pack.Add(name, text); err != nil && c.err == nil {
		c.err = fmt.Errorf("uses %q, which %w", shortened(name), err)
	}
}

// Pack is what was collected. The error says why it cannot be carried: one file is
// missing, and the page would come to something else.
func (c *Collector) Pack() (*Pack, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	return &c.pack, c.err
}

// Linked notes which links to other worksheets lead to pages, as link says, where
// the page is one of a folder.
func (c *Collector) Linked(link func(string) (string, bool)) func(string) (string, bool) {
	if link == nil {
		return nil
	}
	c.pack.Site = true
	return func(file string) (string, bool) {
		href, ok := link(file)
		if ok && isSheet(file) && !slices.Contains(c.pack.Pages, file) {
			c.pack.Pages = append(c.pack.Pages, file)
		}
		return href, ok
	}
}

// Link is where links of a carried worksheet lead, as they did when the page was
// made; nil leaves them as they are.
func (p *Pack) Link() func(string) (string, bool) {
	if !p.Site {
		return nil
	}
	return func(file string) (string, bool) {
		if isSheet(file) {
			return PageName(file), slices.Contains(p.Pages, file)
		}
		return file, true
	}
}

func isSheet(file string) bool { return strings.EqualFold(path.Ext(file), ".md") }

// PageName is the file of a worksheet's page.
func PageName(sheet string) string { return strings.TrimSuffix(sheet, path.Ext(sheet)) + ".html" }
