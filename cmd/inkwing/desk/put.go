package desk

import (
	"context"
	"fmt"

	"inkwing/evaluate/message"
	"inkwing/worksheet/reading"
)

// put puts values into the files in which they stand, the page's own and those that
// it uses, if they still hold what was shown. Nothing is written where one does not.
func (d *Desk) put(ctx context.Context, s *seat, file string, changes []reading.Change) (back []reading.Change, problems []reading.Problem, err error) {
	d.look(s, true)
	drafts, back, problems, err := d.drafts(ctx, s, file, changes)
	if err == nil && len(problems) == 0 {
		err = d.carryOut(ctx, drafts)
	}
	for _, x := range drafts {
		d.renewed(ctx, s, x.File)
	}
	s.again() // what it uses is another, or may be
	return back, problems, err
}

// drafts is what the files are to hold.
func (d *Desk) drafts(ctx context.Context, s *seat, file string, changes []reading.Change) (drafts []reading.Draft, back []reading.Change, problems []reading.Problem, err error) {
	ctx, done, err := d.bounded(ctx)
	if err != nil {
		return nil, nil, nil, err
	}
	defer done()
	if problems := d.outside(ctx, s, changes); len(problems) > 0 {
		return nil, nil, problems, nil
	}
	return s.room.Drafts(ctx, file, changes)
}

// renewed has an open page know what its file holds now, and those who read it; the
// page that acts tells of itself.
func (d *Desk) renewed(ctx context.Context, acting *seat, name string) {
	d.mu.Lock()
	there := d.seats[name]
	d.mu.Unlock()
	if there == nil {
		return
	}
	if changed, _ := d.look(there, true); changed && there != acting {
		d.tell(ctx, there)
	}
}

// outside says which of some changes stand in files that the desk does not write:
// those outside of its folder, though inside of the root.
func (d *Desk) outside(ctx context.Context, s *seat, changes []reading.Change) (problems []reading.Problem) {
	for _, c := range changes {
		for _, file := range s.room.FilesOf(ctx, []reading.Change{c}) {
			if !d.writes(file) {
				problems = append(problems, reading.Problem{Name: c.Name, Summary: message.Quote(c.Name) + " stands in " + file + ", outside of this desk's folder.", Hint: "It can be tried here; change it there."})
			}
		}
	}
	return problems
}

// carryOut writes the files. Where one is another meanwhile, those before it are put
// back: what was tried together stands together or not at all.
func (d *Desk) carryOut(ctx context.Context, drafts []reading.Draft) error {
	for i, x := range drafts {
		err := d.Folder.Replace(ctx, x.File, x.Old, x.New)
		if err == nil {
			continue
		}
		for _, done := range drafts[:i] {
			if again := d.Folder.Replace(context.WithoutCancel(ctx), done.File, done.New, done.Old); again != nil {
				return fmt.Errorf("%s holds what was tried, but %s %w", d.shown(done.File), d.shown(x.File), err)
			}
		}
		return fmt.Errorf("%s %w", d.shown(x.File), err)
	}
	return nil
}
