package reading_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"inkwing/evaluate"
	"inkwing/worksheet"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

var anywhere = flag.Int("anywhere", 40, "how many documents TestAnywhere makes up")

// TestAnywhere makes up documents whose blocks stand in all kinds of places, each with numbers
// of its own, and looks for these where the block is: in the Markdown, on the page, and when
// something is tried and kept.
func TestAnywhere(t *testing.T) {
	memory := page.NewMemory()
	for seed := range uint64(*anywhere) {
		text := madeUp(seed)
		if ok := t.Run(strconv.FormatUint(seed, 10), func(t *testing.T) {
			inMarkdown(t, text)
			r := reading.Open(folder{}, "glider.md", []byte(text), reading.Options{})
			first := work(t, r, "")
			onPage(t, first, text, nil)
			whenTried(t, r, first, text)
			fromMemory(t, memory, text)
		}); !ok {
			t.Logf("in\n%s", text)
		}
	}
}

// A madeUpText is a document in the making.
type madeUpText struct {
	*rand.Rand
	blocks int
}

// madeUp is a document. Block 7 defines a7, a number of its own, and b7, which is twice that;
// each place of an inline value gets one of them.
func madeUp(seed uint64) string {
	m := &madeUpText{Rand: rand.New(rand.NewPCG(seed, 7))}
	text := pick(m, "", "", "---\ntitle: x\n---\n", "+++\nx = 1\n+++\n", "\ufeff") + "# Notes\n\n"
	for range 5 + m.IntN(5) {
		text += m.contained() + "\n"
		if ended := strings.HasSuffix(text, "```\n") || strings.HasSuffix(text, "~~~\n"); !ended || m.IntN(3) > 0 {
			text += pick(m, "\n", "\n\n")
		}
	}
	text += m.contained() + "\n\n" + m.block() + pick(m, "", "\n", "\n\n```text\nleft open\n")
	text = inlinePlace.ReplaceAllStringFunc(text, func(string) string { return fmt.Sprintf("`b%d [g] = ?`", 1+m.IntN(m.blocks)) })
	if m.IntN(4) == 0 {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return text
}

var inlinePlace = regexp.MustCompile("@@")

func pick[T any](m *madeUpText, of ...T) T { return of[m.IntN(len(of))] }

// contained is something in a container, or in none.
func (m *madeUpText) contained() string {
	c := pick(m, "|", "|", "1. |   ", "1)  |    ", "- |  ", "*   |    ", "> |> ", "- > |  > ", "> - |>   ", "> 1. |>    ", "-\t|\t", "> > |> > ", "1. - |     ")
	head, rest, _ := strings.Cut(c, "|")
	lines := strings.Split(m.content(), "\n")
	for i, line := range lines {
		switch {
		case i == 0:
			lines[i] = head + line
		case line == "":
			lines[i] = strings.TrimRight(rest, " \t")
		default:
			lines[i] = rest + line
		}
	}
	return strings.Join(lines, "\n")
}

// content is a few things behind each other.
func (m *madeUpText) content() string {
	var parts []string
	for range 1 + m.IntN(3) {
		if m.IntN(2) == 0 {
			parts = append(parts, m.block())
		} else {
			parts = append(parts, m.prose())
		}
	}
	return strings.Join(parts, "\n\n")
}

func (m *madeUpText) prose() string {
	m.blocks++ // also gives a table its name and its number
	n := m.blocks
	m.blocks--
	return pick(m, "It weighs @@ then.", "## Part @@", "Part\n----", "A *stressed @@ here* and **@@**.", "[a link @@ on](#notes) and @@", "Text[^1] of @@.\n\n[^1]: That is @@ too.",
		"<!-- nothing `b1 [g] = ?`\n\n-->", "<div>\n\nIn it is @@.\n\n</div>", "<details><summary>x</summary>\n\n@@", "- [ ] do @@\n- and @@", "| of | is |\n| -- | -- |\n| x | @@ |",
		fmt.Sprintf("<!-- table: t%d -->\n\n| of | mass [g] |\n| -- | --: |\n| x | %d |", m.IntN(1e9), 700001+m.IntN(99999)),
		"```go\nx := 1\n```", "~~~text\n```working\n~~~", "    indented = 5", "a <textarea> b @@", "a <b>b @@", "a\\\nb @@", fmt.Sprintf("___\n\n![@ %d](none.png)", n))
}

// block is one of ours.
func (m *madeUpText) block() string {
	fence := pick(m, "```", "````", "~~~", "~~~~~")
	info := pick(m, "working", "working", " working", "working and more", "working\tx", "working\u00a0x")
	if m.IntN(6) == 0 {
		info = pick(m, "keeping\nevery limit: headroom >= 5 %", "gather\nlimit where headroom < 5 %", "working", "working\n# nothing", "working\n\n")
		return fence + info + "\n" + fence
	}
	m.blocks++
	k := m.blocks
	text := fmt.Sprintf("a%d = %d g", k, 1001+2*k) + pick(m, "", "  # noted") + fmt.Sprintf("\nb%d [g] = a%d * 2\n", k, k)
	text += strings.ReplaceAll(pick(m, "", "", "bad# = a# + 1 s\n", "limit a# <= 500 g\n", "limit a# <= 1 kg \"less\"\n", "\n  \n",
		"p# = pack(capacitor(capacitance: 50 F, rated_voltage: 2.7 V, resistance: 16 mΩ), series: 4)\n",
		"v# = vary a# in 1 g to 3 g by 1 g: b#\nchart \"Of #\": b# against a# from v#\n"), "#", strconv.Itoa(k))
	return fence + info + "\n" + text + fence
}

var (
	placed   = regexp.MustCompile("(?m)\\b(a\\d+) = \\d+ g|`(b\\d+) \\[g\\] = \\?`")
	comments = regexp.MustCompile(`(?s)<!--.*?-->`)
)

// order is what stands in a text: the blocks by their first name, and inline values.
func order(text string) (list []string) {
	for _, m := range placed.FindAllStringSubmatch(comments.ReplaceAllString(text, ""), -1) {
		list = append(list, m[1]+m[2])
	}
	return list
}

// double is what b7 comes to.
func double(name string) int {
	k, _ := strconv.Atoi(name[1:])
	return 2 * (1001 + 2*k)
}

// numbers are those of blocks that a text shows.
func numbers(text string) (list []string) {
	for _, n := range regexp.MustCompile(`\b[12]\d\d\d\b`).FindAllString(text, -1) {
		if !slices.Contains(list, n) {
			list = append(list, n)
		}
	}
	slices.Sort(list)
	return list
}

func inMarkdown(t *testing.T, text string) {
	r := worksheet.WorkText(t.Context(), folder{}, "glider.md", []byte(text))
	if len(r.Refused) > 0 {
		t.Fatalf("refused: %v", r.Refused)
	}
	if again := worksheet.WorkText(t.Context(), folder{}, "glider.md", r.Output); again.TextChanged() {
		t.Errorf("a second run changes\n%s\nto\n%s", r.Output, again.Output)
	}
	back, refused := worksheet.Strip(t.Context(), "glider.md", r.Output)
	want := regexp.MustCompile("(?s)<!--.*?-->|`b\\d+ \\[g\\] = \\?`").ReplaceAllStringFunc(text, func(s string) string {
		if s[0] == '<' {
			return s
		}
		name, rest, _ := strings.Cut(s[1:], " ")
		return "`" + name + " " + strings.Replace(rest, "?", strconv.Itoa(double(name))+" g", 1)
	})
	if len(refused) > 0 {
		t.Errorf("strip refuses what a run wrote: %v", refused)
	} else if string(back) != want {
		t.Errorf("strip gives\n%s\nin place of\n%s", back, want)
	}
	doc := markdown.Parse("glider.md", r.Output)
	for _, g := range doc.Regions {
		typed := order(string(r.Output[doc.Blocks[g.Block].Start:doc.Blocks[g.Block].End]))
		for _, n := range numbers(string(r.Output[g.Inner.Start:g.Inner.End])) {
			if v, _ := strconv.Atoi(n); len(typed) != 1 || v != double(typed[0]) && v != double(typed[0])/2 {
				t.Errorf("the region of %q shows %s", typed, n)
			}
		}
	}
}

// parsedPage is a page as a browser has it.
func parsedPage(t *testing.T, a *reading.Answer) *html.Node {
	doc, err := html.Parse(bytes.NewReader(a.Document(page.Frame{})))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func at(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func says(n *html.Node) (text string) {
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			text += d.Data
		}
	}
	return text
}

// onPage holds each block and value of a page to the numbers that they have, those that are
// tried among them.
func onPage(t *testing.T, a *reading.Answer, text string, tried map[string]int) {
	var got []string
	ids, links := map[string]int{}, []string{}
	for n := range parsedPage(t, a).Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		if id := at(n, "id"); id != "" {
			ids[id]++
		}
		if to, ok := strings.CutPrefix(at(n, "href"), "#"); ok {
			links = append(links, to)
		}
		name := at(n, "data-name")
		switch {
		case at(n, "class") == "value":
			name = at(n, "title")
			got = append(got, name)
			if want := of(name, tried); numbersOf(says(n)) != want {
				t.Errorf("%s is shown as %s, and is %s", name, says(n), want)
			}
		case n.Data == "li" && name != "":
			got = append(got, name)
			block := blockOf(t, n)
			if shown := numbersOf(equations(block)); !strings.Contains(shown, of("b"+name[1:], tried)) || strings.Count(says(block), "as typed") != 1 {
				t.Errorf("the block of %s shows %s", name, says(block))
			}
		}
	}
	if want := order(text); !slices.Equal(got, want) {
		t.Errorf("the page has\n%s\nin place of\n%s", got, want)
	}
	whole(t, ids, links)
}

func whole(t *testing.T, ids map[string]int, links []string) {
	for id, n := range ids {
		if n > 1 {
			t.Errorf("%d elements are called %s", n, id)
		}
	}
	for _, to := range links {
		if ids[to] == 0 && to != "user-notes" {
			t.Errorf("a link leads to %s, which is not there", to)
		}
	}
}

func numbersOf(text string) string {
	return strings.Join(regexp.MustCompile(`\d{4,}`).FindAllString(text, -1), " ")
}

func of(name string, tried map[string]int) string {
	if n, ok := tried[name]; ok {
		return strconv.Itoa(n)
	}
	return strconv.Itoa(double(name))
}

// equations are the formulas of a block.
func equations(block *html.Node) (text string) {
	for n := range block.Descendants() {
		if n.Data == "math" {
			text += says(n) + " "
		}
	}
	return text
}

// blockOf is the block around a node, which lies in nothing that may not hold it.
func blockOf(t *testing.T, n *html.Node) (block *html.Node) {
	for ; n != nil; n = n.Parent {
		if at(n, "class") == "block" {
			block = n
		}
		if n.Data == "p" || n.Data == "a" {
			t.Errorf("a block lies in <%s>", n.Data)
		}
	}
	return block
}

// whenTried tries each value within reach, and keeps it.
func whenTried(t *testing.T, r *reading.Room, first *reading.Answer, text string) {
	had := map[string]string{}
	for _, s := range first.Sections {
		had[s.ID] = s.HTML
	}
	for i, in := range first.Inputs {
		if strings.Count(text, in.Text) != 1 || in.Number == "" || i%3 != 0 {
			continue
		}
		c := reading.Change{Name: in.Name, Text: in.Before + "5555" + in.After}
		tried := map[string]int{}
		if in.Name[0] == 'a' {
			tried["b"+in.Name[1:]] = 11110
		}
		all := work(t, r, "", c)
		onPage(t, all, text, tried)
		since := work(t, r, first.Stamp, c)
		var moved []string
		for _, s := range all.Sections {
			if had[s.ID] != s.HTML {
				moved = append(moved, s.ID)
			}
		}
		if !slices.Equal(ids(since), moved) {
			t.Errorf("%s moves %s, and %s are sent", in.Name, moved, ids(since))
		}
		kept, problems, err := r.Keep(t.Context(), first.File, []reading.Change{c})
		if err != nil || len(problems) > 0 {
			t.Errorf("%s is not kept: %v %v", in.Name, problems, err)
		} else if want := strings.Replace(text, in.Text, c.Text, 1); string(kept.Text) != want {
			t.Errorf("%s is kept as\n%s", in.Name, kept.Text)
		}
	}
}

// fromMemory holds a page with what was remembered of another document to one without.
func fromMemory(t *testing.T, memory *page.Memory, text string) {
	doc, load, _ := worksheet.Document(t.Context(), folder{}, "glider.md", []byte(text))
	s := page.Source{Document: doc}
	s.Report, s.Lines = evaluate.Lines(t.Context(), doc.Sheet(), load)
	s.Image = worksheet.Images(folder{}, "glider.md")
	want := page.Make(context.Background(), s)
	s.Memory = memory
	if got := page.Make(context.Background(), s); !reflect.DeepEqual(got, want) {
		t.Error("what is remembered of another page changes this one")
	}
}
