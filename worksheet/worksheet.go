// Package worksheet works Markdown files: it finds their working blocks, has
// them worked, and splices the results into the bytes it owns.
//
// [Work] and [Strip] are its verbs. Files are reached through [Files], which a
// test or a browser can stand in for.
package worksheet
