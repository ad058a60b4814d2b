// Package rules holds reports against what somebody wrote down once for all
// journals, and looks through many reports for what they have in common.
//
// [ReadPage] reads the rules of a page, [Rule.Judge] holds one journal against a
// rule, and [ReadSearch] with [Search.Of] picks rows out of journals. A rule is
// a quantifier and a subject of ours around predicates, and each predicate is a
// program of the expr library that sees one row and nothing else: no file, no
// clock, no other row. Its limit: a predicate knows a number's dimension, not
// whether a number per time is a rotation or a rate.
package rules
