// Package basis says what the results of a sheet stand on beside its own text: digests of
// what the sheets say that it uses.
//
// [Of] makes a [Basis] of a sheet that has been checked; nothing needs to be evaluated.
// Whoever keeps digests learns from two that are alike that the sheet comes to the same.
// Its limit: how much work all sheets are together stands in no digest, so that a sheet
// which was close to the bound of a run may be over it.
package basis

import (
	"crypto/sha256"
	"maps"
	"slices"

	"inkwing/evaluate/program"
	"inkwing/evaluate/working"
)

// A Digest stands for all that went into it.
type Digest [sha256.Size]byte

// A Basis is what the results of a sheet stand on.
type Basis struct {
	Files []string // that it uses, directly or not, in order
	// All stands for everything that the used sheets say.
	All Digest
	// Bearing leaves out of that the plain values that nothing in the sheet is worked
	// from. It counts only where all of Sheets could be evaluated: a value that bears
	// on nothing here can still put its own sheet in error, and that is told here.
	Bearing Digest
	// Sheets are the used worksheets, each with all that it uses itself.
	Sheets map[string]Digest
	// Own is the sheet itself, as it stands among Sheets where another one uses it.
	Own Digest
}

// Of is the basis of a sheet that has been checked; nil where something in it or in what
// it uses is in error: then more bears on what is said of it than the digests hold.
func Of(w *working.Evaluation) *Basis {
	if inError(w.Program) {
		return nil
	}
	main := w.Program.Main.Name
	b := &Basis{Sheets: map[string]Digest{}}
	full := map[string]Digest{}
	for name, s := range w.Source.Sheets {
		full[name] = said(s, nil)
		if name != main {
			b.Files = append(b.Files, name)
		}
	}
	slices.Sort(b.Files)
	b.All = together(b.Files, full)
	b.Bearing = together(b.Files, bearing(w, full))
	for _, s := range w.Program.Sheets {
		b.Sheets[s.Name] = together(reach(w.Program, s), full)
	}
	b.Own = b.Sheets[main]
	delete(b.Sheets, main)
	return b
}

// inError reports whether the check found anything wrong.
func inError(p *program.Program) bool {
	wrong := func(s *program.Sheet) bool { return len(s.Problems)+len(s.Broken) > 0 }
	return len(p.Problems) > 0 || slices.ContainsFunc(p.Sheets, wrong)
}

// together is the digest of files with their names.
func together(names []string, each map[string]Digest) Digest {
	var w writer
	for _, name := range names {
		d := each[name]
		w.text(name)
		w.out = append(w.out, d[:]...)
	}
	return sha256.Sum256(w.out)
}

// reach are the names of a sheet and of all that it uses, directly or not, in order.
func reach(p *program.Program, s *program.Sheet) []string {
	uses := map[string][]string{}
	for _, s := range p.Sheets {
		uses[s.Name] = s.UsesOrder
	}
	seen := map[string]bool{s.Name: true}
	for queue := []string{s.Name}; len(queue) > 0; queue = queue[1:] {
		for _, name := range uses[queue[0]] {
			if !seen[name] {
				seen[name] = true
				queue = append(queue, name)
			}
		}
	}
	return slices.Sorted(maps.Keys(seen))
}

// Whole are the sheets, of that which was evaluated and all that it uses, of which
// everything could be evaluated.
func Whole(w *working.Evaluation) map[string]bool {
	whole := map[string]bool{}
	for _, s := range w.Program.Sheets {
		whole[s.Name] = true
	}
	for _, d := range w.Program.Defs {
		if !program.Is[*program.Function](d) && (!d.OK() || w.Machine.Value(d) == nil || w.Fault(d) != nil) {
			whole[d.Sheet.Name] = false
		}
	}
	return whole
}
