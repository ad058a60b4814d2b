package syntax

import (
	"slices"

	"github.com/alecthomas/participle/v2/lexer"

	"inkwing/evaluate/message"
)

// forms show how each statement is written.
var forms = map[string]string{
	"limit":    "`limit a <= b \"what to do\"`",
	"measured": "`measured a = 12 V`",
	"vary":     "`vary x in 4 to 12 by 2: a [V], b.time`",
	"adjust":   "`adjust x in 50 to 600 until a == 17 V`",
	"tune":     "`tune x in 3 to 12 by 1 for least a`",
	"budget":   "`budget a`",

	"correlation": "`correlation a, b = 0.9`",
	"chart":       "`chart \"title\": V [V] against t [s] from table`",
	"use":         "`use \"path\" as name (column [unit], …)`",
	"digits":      "`digits 3`, or `digits 2 a, b`",
	"draws":       "`draws 100_000`",
	"overview":    "`overview`",
	"show":        "`show table: a [V], b where a > 3 V sorted by b first 5 total b`",
}

// formOf says how the statement that begins so is written.
func formOf(list []lexer.Token) string {
	for i := range list {
		if list[i].Type == tokenVerb {
			return "write " + forms[list[i].Value]
		}
	}
	if len(list) > 1 && isSign(&list[1], "(") {
		return "a function is written `f(x [m/s], n) [W] = …`"
	}
	return ""
}

// unknownVerb is about two words at the start of a statement.
func (c *precedenceParser) unknownVerb(name *Ident) error {
	names := make([]string, 0, len(verbs))
	for v := range verbs {
		names = append(names, v)
	}
	slices.Sort(names)
	if near := message.Nearest(name.Name, names); near != "" {
		return fail(name.Span, "no line begins with "+message.Quote(name.Name), "write "+forms[near])
	}
	if whole := c.wholeName(name.Name); whole != "" {
		return fail(name.Span, "a name cannot have blanks in it", "write "+message.Quote(whole+" = …"))
	}
	return fail(name.Span, "no line begins with "+message.Quote(name.Name)+", and no = follows it", "a definition is `name [unit] = value`; prose stands behind #")
}
