// Package syntax reads working blocks into a tree.
//
// [Parse] reads the blocks of a file, [ParseValue] one cell of a table. Both
// report every mistake in the builder's terms and at its place, and give a
// tree of what could be read: a wrong statement hides no other. [Source]
// writes an expression back. The package knows no quantities, no units and no
// library: "12 V/R" is read as a number with the unit V/R, and whoever knows
// the units says that R is none.
package syntax

import (
	"context"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// The way from text to tree: layout cuts blocks into statements, a scanner
// turns a statement into tokens (with the rule for units behind numbers), the
// participle grammar reads statements, and the precedenceParser reads expressions.

// Parse reads the working blocks of a file. The tree holds the statements that
// are right; the diagnostics, in order, one at most for each line, say what is
// wrong with the others.
func Parse(file string, blocks []Block) (*Tree, []message.Diagnostic) {
	return ParseWithin(context.Background(), file, blocks)
}

// ParseWithin is Parse until the context is done: what is left is not read then, and
// nobody is to use what comes out.
func ParseWithin(ctx context.Context, file string, blocks []Block) (*Tree, []message.Diagnostic) {
	return parse(ctx, file, blocks, MaxStatements, Earlier{})
}

// Earlier is a tree that was read before, of a text that is much the same.
type Earlier struct {
	Tree *Tree                // nil for none
	Anew func(Statement) bool // those of its statements that are to be read anew all the same; nil for none
}

// ParseAfter is ParseWithin, but for statements that stand where they stood, with the same
// text: those are the earlier ones, and nobody is to write to them.
func ParseAfter(ctx context.Context, file string, blocks []Block, e Earlier) (*Tree, []message.Diagnostic) {
	return parse(ctx, file, blocks, MaxStatements, e)
}

// find is the statement of some lines, nil for none.
func (e Earlier) find(file string, lines logicalLine) Statement {
	if e.Tree == nil || e.Tree.File != file {
		return nil
	}
	k, ok := e.Tree.read[lines.lines[0].Offset]
	if !ok || !k.lines.same(lines) || e.Anew != nil && e.Anew(k.statement) {
		return nil
	}
	return k.statement
}

// parse reads that many statements at most.
func parse(ctx context.Context, file string, blocks []Block, most int, e Earlier) (*Tree, []message.Diagnostic) {
	tree := &Tree{File: file, read: map[int]known{}}
	var problems []message.Diagnostic
	blocks, tree.Conflicts, problems = cutConflicts(file, blocks)
	room := make([]lexer.Token, 0, 64)
	hanging := false // the statement before asks for a line that is not indented
	for i, s := range layout(blocks) {
		if i == most {
			return tree, append(problems, diagnose(s.place(file), "this file has more than "+strconv.Itoa(most)+" statements", "move some of them into a file of their own"))
		}
		if ctx.Err() != nil {
			return tree, append(problems, diagnose(s.place(file), Stopped, ""))
		}
		if k := e.find(file, s); k != nil {
			hanging = false
			tree.add(s, k)
			continue
		}
		statement, wrong := parseLine(file, s, room)
		if hanging && len(wrong) > 0 && !beginsStatement(s.lines[0].Text) {
			continue // one mistake, told where it begins
		}
		hanging = len(wrong) > 0 && isHanging(wrong[0].Summary)
		if statement != nil {
			tree.add(s, statement)
		}
		problems = append(problems, wrong...)
	}
	return tree, problems
}

func (t *Tree) add(lines logicalLine, s Statement) {
	t.Statements = append(t.Statements, s)
	t.read[lines.lines[0].Offset] = known{lines, s}
}

// Stopped is said where the time was up.
const Stopped = "this took too long and was stopped"

// notClosed and nothingFollows begin what is said of a statement that goes on in
// a line which does not belong to it.
const notClosed, nothingFollows = "this bracket is not closed", "nothing follows "

func isHanging(summary string) bool {
	return strings.HasPrefix(summary, notClosed) || strings.HasPrefix(summary, nothingFollows)
}

// defines is the left side of a definition or a function.
var defines = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\s*[\pL_][\pL\pN_]*\s*(\(.*\)\s*)?(\[[^\]]*\]\s*)?=`)
})

// beginsStatement reports whether a line looks like one of its own, right or wrong.
func beginsStatement(line string) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(line), " ")
	return verbs[word] || defines().MatchString(line)
}

func diagnose(at message.Span, summary, hint string) message.Diagnostic {
	return message.Diagnostic{Span: at, Summary: summary, Hint: hint}
}

// parseLine reads one statement: nil with what is wrong, or nil and nothing
// for a line of blanks.
func parseLine(file string, s logicalLine, room []lexer.Token) (Statement, []message.Diagnostic) {
	if s.leftward {
		return nil, []message.Diagnostic{diagnose(s.place(file), "this line begins left of the block's first statement", "give all statements of a block one indent")}
	}
	if s.size() > MaxStatement {
		return nil, []message.Diagnostic{diagnose(s.place(file), "this statement is longer than "+strconv.Itoa(MaxStatement)+" bytes", "cut it into several, or move its numbers into a table")}
	}
	scanned := scan(file, s.lines, room)
	if len(scanned.problems) > 0 {
		return nil, onePerLine(scanned.problems, s.lines)
	}
	if len(scanned.list) == 1 {
		return nil, nil
	}
	head := Head{Span: spanOf(&scanned.list[0]).To(spanOf(&scanned.list[len(scanned.list)-1])), Block: s.block, Note: strings.Join(scanned.notes, " ")}
	statement, err := parseStatement(scanned, head)
	if err != nil {
		return nil, []message.Diagnostic{err.(*problem).Diagnostic}
	}
	return statement, nil
}

// onePerLine keeps the first problem of each line.
func onePerLine(problems []message.Diagnostic, lines []Line) []message.Diagnostic {
	row := func(d message.Diagnostic) int {
		n := 0
		for i, l := range lines {
			if d.Span.Start >= l.Offset {
				n = i
			}
		}
		return n
	}
	kept := problems[:1]
	for _, p := range problems[1:] {
		if row(p) != row(kept[len(kept)-1]) {
			kept = append(kept, p)
		}
	}
	return kept
}

func parseStatement(s *scanner, head Head) (Statement, error) {
	if err := checkBrackets(s.list); err != nil {
		return nil, err
	}
	if err := checkEnd(s.list); err != nil {
		return nil, err
	}
	lex, err := lexer.Upgrade(&s.tokens)
	if err != nil {
		return nil, fail(head.Span, "this statement cannot be read", "")
	}
	line, err := grammar().ParseFromLexer(lex)
	if err != nil {
		return nil, explain(err, s.list)
	}
	return line.statement(head, s.list), nil
}

// closers pairs the brackets.
var closers = map[string]string{"(": ")", "[": "]"}

// checkBrackets finds brackets that are open at the end, close nothing, or are
// nested too deep, before anything recurses into them.
func checkBrackets(list []lexer.Token) error {
	var open []*lexer.Token
	for i := range list {
		t := &list[i]
		switch {
		case isSign(t, "("), isSign(t, "["):
			if open = append(open, t); len(open) > MaxNesting {
				return fail(spanOf(t), "this is nested more than "+strconv.Itoa(MaxNesting)+" deep", "give the inner part a name of its own")
			}
		case isSign(t, ")"), isSign(t, "]"):
			if len(open) == 0 {
				return fail(spanOf(t), message.Quote(t.Value)+" closes no bracket", "delete it, or open the bracket")
			}
			if want := closers[open[len(open)-1].Value]; want != t.Value {
				return fail(spanOf(t), message.Quote(t.Value)+" stands where "+message.Quote(want)+" is wanted", "")
			}
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		return fail(spanOf(open[len(open)-1]), notClosed, "close it, or indent the lines that belong to it")
	}
	return nil
}

// checkEnd finds a statement that ends in an operator.
func checkEnd(list []lexer.Token) error {
	if len(list) < 2 {
		return nil
	}
	t := &list[len(list)-2]
	word := t.Type == tokenName && reserved[t.Value] && t.Value != "true" && t.Value != "false"
	if word && len(list) > 2 && isSign(&list[len(list)-3], ".") {
		return nil // the parser says that the word cannot be a field
	}
	if !word && (t.Type != tokenSign || t.Value == ")" || t.Value == "]") {
		return nil
	}
	if t.Value == "." || t.Value == "," {
		return fail(spanOf(t), "a statement does not end with "+message.Quote(t.Value), "delete it; prose stands outside the block, or behind #")
	}
	return fail(spanOf(t), nothingFollows+message.Quote(t.Value), "indent the next line if it belongs to this one")
}
