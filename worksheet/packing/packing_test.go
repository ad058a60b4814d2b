package packing

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"unicode/utf8"
)

func packed(t *testing.T, p *Pack) []byte {
	t.Helper()
	html, err := p.HTML()
	if err != nil {
		t.Fatal(err)
	}
	return []byte("<!DOCTYPE html><p>x</p>" + html + "</body>")
}

// TestThereAndBack wants every byte again, of texts and of what is no text.
func TestThereAndBack(t *testing.T) {
	files := map[string]string{
		"shed/journal.md": "\ufeff# A </script> <!-- \u2028 b\r\n\x00\n", "shed/log.csv": "t,V\n0,12\n", "empty.md": "",
		"größe/ø.svg": "<svg></svg>", "i.png": "\x89PNG\r\n\x1a\n\xff\x00", "broken.md": "\xff\xfe",
	}
	p := &Pack{Made: "v1", Sheet: "shed/journal.md", Pages: []string{"parts.md"}, Site: true}
	for name, text := range files {
		if err := p.Add(name, []byte(text)); err != nil {
			t.Fatal(name, err)
		}
	}
	if err := p.Add("shed/log.csv", []byte("other")); err != nil {
		t.Fatal(err)
	}
	got, err := Of(packed(t, p))
	if err != nil {
		t.Fatal(err)
	}
	if got.Made != "v1" || got.Sheet != "shed/journal.md" || len(got.Pages) != 1 || !got.Site || len(got.Files) != len(files) {
		t.Errorf("%+v", got)
	}
	for name, want := range files {
		if text, err := got.Read(name); err != nil || string(text) != want {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
	if names, err := got.List("."); err != nil || strings.Join(names, " ") != "broken.md empty.md größe i.png shed" {
		t.Errorf("%q, %v", names, err)
	}
	if names, err := got.List("shed"); err != nil || strings.Join(names, " ") != "journal.md log.csv" {
		t.Errorf("%q, %v", names, err)
	}
	if _, err := got.Read("none.md"); err == nil {
		t.Error("a file that is not there is read")
	}
	if !bytes.Equal(packed(t, p), packed(t, got)) {
		t.Error("packed again it is another page")
	}
}

// TestNames goes through the names that do not stay where they are put, on one
// system or another.
func TestNames(t *testing.T) {
	for _, bad := range []string{
		"", ".", "..", "../a.md", "a/../b.md", "a/./b.md", "/a.md", "//a.md", "a//b.md", "a/", "a.md/",
		`\a.md`, `a\b.md`, `..\a.md`, "C:a.md", "C:/a.md", "c:.md", "a.md:stream.md", "~/.md", ".git/config.md", ".a.md", "a/.b/c.md",
		"con.md", "NUL.md", "aux", "Com1.csv", "lpt9.x.md", "com¹.md", "CON .md", "conin$.md", "a./b.md", "a /b.md", " a.md", "a.md ", "a.md.",
		"a*.md", "a?.md", "a|b.md", "a<b.md", `a"b.md`, "a\x00.md", "a\n.md", "a\u202e.md", "a\u200b.md", "\ufffd\xff.md",
		"a.exe", "a.md.sh", "a.html", "a", "a.bat", "a.lnk", "a.desktop", strings.Repeat("a", 250) + ".md", strings.Repeat("a/", 600) + "a.md",
	} {
		if err := (&Pack{}).Add(bad, nil); err == nil {
			t.Errorf("%q is taken", bad)
		}
		if !utf8.ValidString(bad) {
			continue // which JSON cannot hold
		}
		if _, err := Of(element(t, map[string]any{"sheet": "a.md", "files": []File{{Path: "a.md"}, {Path: bad}}})); err == nil {
			t.Errorf("%q is taken out", bad)
		}
	}
	for _, good := range []string{"a.md", "A.MD", "shed/parts list.md", "größe.csv", "комета.md", "a..b.md", "com10.md", "console.md", "a-b_c (2).svg", "x/y/z/log.tsv"} {
		if err := (&Pack{}).Add(good, nil); err != nil {
			t.Errorf("%q %v", good, err)
		}
	}
}

// element is a page that carries any JSON at all.
func element(t *testing.T, value any) []byte {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return carrying(text)
}

func carrying(text []byte) []byte {
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	w.Write(text)
	w.Close()
	return []byte(opening + base64.StdEncoding.EncodeToString(out.Bytes()) + closing)
}

// TestTwoInOnePlace wants no two names that one system or another takes for one.
func TestTwoInOnePlace(t *testing.T) {
	for _, pair := range [][2]string{{"a.md", "a.md"}, {"a.md", "A.md"}, {"größe.md", "gro\u0308ße.md"}, {"ſ.md", "S.md"}, {"K.md", "\u212a.md"}, {"a.md", "a.md/b.md"}, {"A.md/b.md", "a.md"}, {"x/B.md", "X/b.md"}} {
		if _, err := Of(element(t, map[string]any{"sheet": "s.md", "files": []File{{Path: "s.md"}, {Path: pair[0]}, {Path: pair[1]}}})); err == nil {
			t.Errorf("%q are both taken out", pair)
		}
	}
}

// TestHostile goes through pages that nobody made for reading.
func TestHostile(t *testing.T) {
	ok := []File{{Path: "a.md"}}
	many := make([]File, MaxFiles+1)
	for i := range many {
		many[i].Path = fmt.Sprintf("%d.md", i)
	}
	whole := string(element(t, map[string]any{"sheet": "a.md", "files": ok}))
	for name, c := range map[string]struct {
		page []byte
		want string
	}{
		"nothing":        {[]byte("<!DOCTYPE html>"), "no sources"},
		"twice":          {[]byte(whole + whole), "twice"},
		"cut off":        {[]byte(whole[:len(whole)-3]), "cut off"},
		"half":           {[]byte(whole[:len(whole)-40] + closing), "cannot be read"},
		"no base64":      {[]byte(opening + "!!!" + closing), "cannot be read"},
		"no gzip":        {[]byte(opening + "AAAA" + closing), "cannot be read"},
		"no JSON":        {carrying([]byte("a")), "cannot be read"},
		"a number":       {carrying([]byte("1")), "cannot be read"},
		"unknown":        {element(t, map[string]any{"sheet": "a.md", "files": ok, "run": "x"}), "cannot be read"},
		"files a text":   {element(t, map[string]any{"sheet": "a.md", "files": "x"}), "cannot be read"},
		"up":             {element(t, map[string]any{"sheet": "a.md", "files": ok, "up": -1}), "cannot be read"},
		"null":           {element(t, map[string]any{"sheet": "a.md", "files": nil}), "cannot be read"},
		"no sheet":       {element(t, map[string]any{"sheet": "b.md", "files": ok}), "does not carry"},
		"many":           {element(t, map[string]any{"sheet": "0.md", "files": many}), "more than 1000"},
		"many pages":     {element(t, map[string]any{"sheet": "a.md", "files": ok, "pages": make([]string, MaxFiles+1)}), "more than 1000"},
		"text and bytes": {element(t, map[string]any{"sheet": "a.md", "files": []File{{Path: "a.md", Text: "a", Bytes: []byte("b")}}}), "larger"},
		"large":          {element(t, map[string]any{"sheet": "a.md", "files": []File{{Path: "a.md", Text: strings.Repeat("a", MaxFile+1)}}}), "larger"},
		"a bomb":         {carrying(bytes.Repeat([]byte(" "), MaxTotal+1)), "more than 32 MiB"},
		"deep":           {carrying(bytes.Repeat([]byte("["), 1<<20)), "cannot be read"},
	} {
		if _, err := Of(c.page); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

// TestManySmall wants little memory for a page of millions of empty files.
func TestManySmall(t *testing.T) {
	page := carrying([]byte(`{"sheet":"a.md","files":[` + strings.Repeat("{},", 8<<20) + "{}]}"))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	if _, err := Of(page); err == nil {
		t.Error("it is taken")
	}
	runtime.ReadMemStats(&after)
	if used := after.TotalAlloc - before.TotalAlloc; used > 8*MaxTotal {
		t.Errorf("%d MiB", used>>20)
	}
}

// FuzzOf holds whatever comes out to the names and sizes that are promised.
func FuzzOf(f *testing.F) {
	f.Add([]byte(`{"made":"v1","sheet":"a.md","files":[{"path":"a.md","text":"x"},{"path":"b.png","bytes":"AA=="}]}`))
	f.Add([]byte(`{"sheet":"../a.md","files":[{"path":"../a.md"}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		p, err := Of(carrying(text))
		if err != nil {
			return
		}
		again, err := Of(packed(t, p))
		if err != nil || len(again.Files) != len(p.Files) {
			t.Fatalf("%v: %q", err, text)
		}
		for _, file := range p.Files {
			if fits(file.Path) != nil || len(file.Content()) > MaxFile {
				t.Errorf("%q", file.Path)
			}
		}
	})
}
