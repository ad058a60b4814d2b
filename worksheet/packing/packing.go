// Package packing puts the sources of a page into the page, and takes them out.
//
// A [Pack] is a worksheet with all that it uses, such as other worksheets, tables
// of data and images; [Pack.HTML] is the comment that carries it, [Of] finds it in
// a page from anywhere. What comes out has safe names and bounded sizes, whoever
// wrote the page: nothing else gets through [Of]. Files are neither read nor written
// here. Its limit: what ends otherwise than [Endings] is not carried.
package packing

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// The bounds of what a page carries.
const (
	MaxFiles = 1000
	MaxFile  = 16 << 20 // bytes of one file
	MaxTotal = 32 << 20 // bytes of all, as JSON
)

// A Pack is what a page was made from.
type Pack struct {
	Made  string          `json:"made"`            // the program's version
	Sheet string          `json:"sheet"`           // the path of the worksheet that the page shows
	Site  bool            `json:"site,omitempty"`  // it is one of the pages of a folder
	Up    int             `json:"up,omitempty"`    // how many folders below the list of those pages it lies
	Pages bounded[string] `json:"pages,omitempty"` // links of the worksheet that lead to other pages of that folder
	Files bounded[File]   `json:"files"`           // by path
}

// A File is carried as a text, or as bytes where it is none.
type File struct {
	Path  string `json:"path"` // from the root of the run, with slashes
	Text  string `json:"text,omitempty"`
	Bytes []byte `json:"bytes,omitempty"`
}

// A bounded list is read until it has too many entries, so that a page cannot ask
// for much memory by many small ones.
type bounded[T any] []T

func (b *bounded[T]) UnmarshalJSON(text []byte) error {
	d := json.NewDecoder(bytes.NewReader(text))
	if start, err := d.Token(); err != nil || start != json.Delim('[') {
		return errors.New("a list is wanted")
	}
	for d.More() {
		var one T
		if len(*b) == MaxFiles {
			return fmt.Errorf("a list has more than %d entries", MaxFiles)
		}
		if err := d.Decode(&one); err != nil {
			return err
		}
		*b = append(*b, one)
	}
	return nil
}

// Content is what the file holds.
func (f File) Content() []byte {
	if f.Bytes != nil {
		return f.Bytes
	}
	return []byte(f.Text)
}

// Add puts a file in, once. One that could not be taken out again is the error.
func (p *Pack) Add(path string, content []byte) error {
	if p.find(path) != nil {
		return nil
	}
	if err := fits(path); err != nil {
		return err
	}
	if len(content) > MaxFile {
		return fmt.Errorf("is larger than %d MiB", MaxFile>>20)
	}
	f := File{Path: path, Text: string(content)}
	if !utf8.Valid(content) {
		f.Text, f.Bytes = "", content
	}
	p.Files = append(p.Files, f)
	slices.SortFunc(p.Files, func(a, b File) int { return cmp.Compare(a.Path, b.Path) })
	return nil
}

// Replace puts something else into a file that is carried.
func (p *Pack) Replace(path string, content []byte) error {
	f := p.find(path)
	switch {
	case f == nil:
		return errors.New("is not carried")
	case len(content) > MaxFile:
		return fmt.Errorf("is larger than %d MiB", MaxFile>>20)
	case !utf8.Valid(content):
		f.Text, f.Bytes = "", content
	default:
		f.Text, f.Bytes = string(content), nil
	}
	return nil
}

func (p *Pack) find(path string) *File {
	for i := range p.Files {
		if p.Files[i].Path == path {
			return &p.Files[i]
		}
	}
	return nil
}

// Read gives a file that is carried, as a run asks for those that it uses.
func (p *Pack) Read(path string) ([]byte, error) {
	if f := p.find(path); f != nil {
		return f.Content(), nil
	}
	return nil, errors.New("does not exist")
}

// List names what is carried in a folder, sorted.
func (p *Pack) List(folder string) (names []string, err error) {
	for _, f := range p.Files {
		rest, within := f.Path, folder == "."
		if !within {
			rest, within = strings.CutPrefix(f.Path, folder+"/")
		}
		if name, _, _ := strings.Cut(rest, "/"); within && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names, nil
}

// What stands round a pack: a comment, which a browser neither runs nor shows.
const (
	opening = "<!-- carried: "
	closing = " -->"
)

// HTML is the comment that carries the pack: JSON, packed by gzip, in base64, which
// holds no character that could end it.
func (p *Pack) HTML() (string, error) {
	if err := p.whole(); err != nil {
		return "", err
	}
	text, err := json.Marshal(p)
	if err != nil {
		return "", err
	}
	if len(text) > MaxTotal {
		return "", errTooMuch
	}
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return "", err
	}
	if _, err := w.Write(text); err != nil {
		return "", err
	}
	if err := w.Close(); err != nil {
		return "", err
	}
	return opening + base64.StdEncoding.EncodeToString(packed.Bytes()) + closing + "\n", nil
}

var errTooMuch = fmt.Errorf("carries more than %d MiB", MaxTotal>>20)

// Of is the pack that a page carries. The error is a sentence to be shown behind
// the page's name.
func Of(html []byte) (*Pack, error) {
	_, rest, found := bytes.Cut(html, []byte(opening))
	if !found {
		return nil, errors.New("carries no sources")
	}
	if bytes.Contains(rest, []byte(opening)) {
		return nil, errors.New("carries its sources twice")
	}
	inside, _, found := bytes.Cut(rest, []byte(closing))
	if !found {
		return nil, damaged("they are cut off")
	}
	text, err := unzipped(inside)
	if err != nil {
		return nil, err
	}
	p := &Pack{}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(p); err != nil {
		return nil, damaged(err.Error())
	}
	return p, p.whole()
}

func damaged(why string) error { return errors.New("carries sources that cannot be read: " + why) }

// unzipped undoes base64 and gzip, and stops at the bound, however little was
// packed.
func unzipped(inside []byte) ([]byte, error) {
	r, err := gzip.NewReader(base64.NewDecoder(base64.StdEncoding, bytes.NewReader(inside)))
	if err != nil {
		return nil, damaged(err.Error())
	}
	text, err := io.ReadAll(io.LimitReader(r, MaxTotal+1))
	switch {
	case err != nil:
		return nil, damaged(err.Error())
	case len(text) > MaxTotal:
		return nil, errTooMuch
	}
	return text, nil
}

// whole reports what is wrong with a pack.
func (p *Pack) whole() error {
	if len(p.Files) > MaxFiles || len(p.Pages) > MaxFiles {
		return fmt.Errorf("carries more than %d files", MaxFiles)
	}
	if p.Up < 0 || p.Up > maxPath {
		return damaged("the list of pages lies nowhere")
	}
	names := taken{}
	for _, f := range p.Files {
		if err := fits(f.Path); err != nil {
			return refused(f.Path, err)
		}
		if len(f.Text)+len(f.Bytes) > MaxFile || f.Text != "" && f.Bytes != nil {
			return fmt.Errorf("carries %s, which is larger than %d MiB", f.Path, MaxFile>>20)
		}
		if err := names.add(f.Path); err != nil {
			return err
		}
	}
	if p.find(p.Sheet) == nil {
		return errors.New("does not carry the worksheet that it shows")
	}
	return nil
}

func refused(path string, why error) error {
	return fmt.Errorf("carries a file with a name that is refused: %q %w", shortened(path), why)
}

func shortened(text string) string {
	const most = 80
	if len(text) <= most {
		return text
	}
	return strings.ToValidUTF8(text[:most], "") + "…"
}
