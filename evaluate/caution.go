package evaluate

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"inkwing/evaluate/run"
)

func (w *worker) caution(c Caution) {
	w.out.Cautions = append(w.out.Cautions, c)
	b := &w.out.Blocks[c.Block]
	b.Cautions = append(b.Cautions, c)
}

// cautions reports what the models raised: a standing hazard once a worksheet,
// any other once for each definition.
func (w *worker) cautions() {
	type key struct {
		id  string
		def int
	}
	seen := map[key]bool{}
	for _, r := range w.machine.Raised() {
		if r.Def.Sheet != w.program.Main {
			continue
		}
		k := key{r.ID, r.Def.ID}
		if r.Standing {
			k.def = -1
		}
		if seen[k] {
			continue
		}
		seen[k] = true
		w.caution(w.raised(r))
	}
}

func (w *worker) raised(r run.Raised) Caution {
	kind := OfModel
	if r.Standing {
		kind = OfStanding
	}
	parts := []string{r.Says, r.Why, r.Mend}
	var text []string
	for _, p := range parts {
		if p != "" {
			text = append(text, sentence(run.Fill(p, r.Values)))
		}
	}
	return Caution{
		ID: r.ID, Kind: kind, Level: r.Level, Span: r.Span, Block: r.Def.Block,
		Text: strings.Join(text, " "), Source: r.Source,
	}
}

// sentence begins with a capital and ends with a stop.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	text = string(unicode.ToUpper(first)) + text[size:]
	if strings.ContainsAny(text[len(text)-1:], ".!?") {
		return text
	}
	return text + "."
}
