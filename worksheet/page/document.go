package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html"
	"regexp"
	"strings"
	"sync"
)

//go:embed style.css
var styleText string

// font is STIX Two Math (SIL Open Font License, beside it): the characters of font.txt
// with the MATH table, made by font.py.
//
//go:embed stix-two-math-subset.woff2
var font []byte

// Style is the style sheet of every page, the font of the formulas in it.
var Style = sync.OnceValue(func() string {
	return strings.Replace(Sheet(styleText), "FONT", base64.StdEncoding.EncodeToString(font), 1)
})

// Sheet is a style sheet in fewer bytes: without its comments and blanks.
func Sheet(text string) string {
	text = strings.Join(strings.Fields(comments.ReplaceAllString(text, "")), " ")
	return tight.Replace(text)
}

var (
	comments = regexp.MustCompile(`(?s)/\*.*?\*/`)
	tight    = strings.NewReplacer(" { ", "{", "; }", "}", " }", "}", "; ", ";", "} ", "}", ": ", ":", ", ", ",", " > ", ">")
)

// A Frame is what stands round the sections of a document.
type Frame struct {
	Before string // HTML ahead of the sections: where else to go
	After  string
	// Style adds to the style sheet.
	Style string
	// Script is run when the page is read; a page can be read without.
	Script string
	// Wasm lets the script, and the workers that it starts, run WebAssembly.
	Wasm bool
	// Policy adds to what the page may do, such as "connect-src 'self'".
	Policy string

	long bool // the page is long
}

// Document is the whole file.
func (p *Page) Document(f Frame) []byte {
	var body strings.Builder
	for _, s := range p.Sections {
		body.WriteString(s.HTML + "\n")
	}
	return Document(p.Title, body.String(), f)
}

// Document is a file of ready HTML. Its policy lets it fetch nothing, and run
// nothing but the frame's own script.
func Document(title, body string, f Frame) []byte {
	f.long = len(body) > long
	var out strings.Builder
	out.WriteString("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"" + Policy(f) +
		"\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n" +
		"<meta name=\"referrer\" content=\"no-referrer\">\n" + icon(f) + generator + "\n<title>" + html.EscapeString(title) + "</title>\n<style>" + Style() + f.Style + "</style>\n</head>\n<body>\n" + f.Before + readLong(f) + "<main>\n" + lean(body) + "</main>\n" + f.After)
	if f.Script != "" {
		out.WriteString("<script>" + f.Script + "</script>\n")
	}
	out.WriteString("</body>\n</html>\n")
	return []byte(out.String())
}

// long is how many bytes of HTML make a page long.
const long = 300_000

// whileRead has what is not in view of a long page laid out when it comes near. It may
// not stand in the style sheet: a browser then cuts the page on paper anywhere, through
// lines, whatever the style for paper says.
const whileRead = `(() => { const read = yes => document.body.classList.toggle("as-read", yes); read(true); addEventListener("beforeprint", () => read(false)); addEventListener("afterprint", () => read(true)); })();`

func readLong(f Frame) string {
	if !f.long {
		return ""
	}
	return "<script>" + whileRead + "</script>\n"
}

// icon is an empty one for a page that is served: a browser would ask for one by
// itself, and say on its console that the policy forbids it.
func icon(f Frame) string {
	if f.Script == "" && !f.long {
		return ""
	}
	return "<link rel=\"icon\" href=\"data:,\">\n"
}

// Policy is what a file with that frame may do: nothing but be shown, and run the
// frame's own script, and ours where the page is long.
func Policy(f Frame) string {
	policy := "default-src 'none'; style-src " + hash(Style()+f.Style) + "; font-src data:; img-src data:; base-uri 'none'; form-action 'none'"
	if f.Script != "" {
		policy += "; script-src " + hash(f.Script) + " " + hash(whileRead)
	} else if f.long {
		policy += "; script-src " + hash(whileRead)
	}
	if f.Wasm {
		policy += " 'wasm-unsafe-eval'"
	}
	if f.Policy != "" {
		policy += "; " + f.Policy
	}
	return policy
}

// hash is a text as a policy names it.
func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
