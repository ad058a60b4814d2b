package desk

import (
	"context"
	"slices"

	"inkwing/worksheet/reading"
)

// A plan is a file with what is to be put into it.
type plan struct {
	seat *seat
	old  []byte
	kept *reading.Kept
}

// put puts values into the files in which they stand, the page's own and those that
// it uses, if they still hold what was shown. Nothing is written where one does not.
func (d *Desk) put(ctx context.Context, s *seat, file string, changes []reading.Change) (back []reading.Change, problems []reading.Problem, err error) {
	d.look(s, true)
	var plans []plan
	for _, part := range s.room.Split(ctx, changes) {
		p, problems, err := d.plan(ctx, s, file, part)
		if err != nil || len(problems) > 0 {
			return nil, problems, err
		}
		plans, back = append(plans, p), append(back, part.Before...)
	}
	for _, p := range plans {
		if err := d.carryOut(ctx, p); err != nil {
			return nil, nil, err
		}
	}
	if len(plans) > 0 {
		s.again() // what it uses may be another
	}
	return back, nil, nil
}

// plan finds what a file is to hold.
func (d *Desk) plan(ctx context.Context, s *seat, file string, part reading.Part) (p plan, problems []reading.Problem, err error) {
	p.seat = s
	if part.File != "" {
		if p.seat, file, problems, err = d.other(ctx, part); err != nil || len(problems) > 0 {
			return p, problems, err
		}
	}
	p.seat.mu.Lock()
	p.old = p.seat.text
	p.seat.mu.Unlock()
	bound, done, err := d.bounded(ctx)
	if err != nil {
		return p, nil, err
	}
	defer done()
	p.kept, problems, err = p.seat.room.Keep(bound, file, part.Changes)
	return p, problems, err
}

// other is the page of a file that is used, with the stamp of what it holds, if that
// is what was shown.
func (d *Desk) other(ctx context.Context, part reading.Part) (s *seat, file string, problems []reading.Problem, err error) {
	if !d.serves(part.File) {
		return nil, "", []reading.Problem{{Name: part.Before[0].Name, Summary: "`" + part.Before[0].Name + "` stands in " + part.File + ", which is no page of this desk.", Hint: "It can be tried here; change it there."}}, nil
	}
	if s, err = d.sit(part.File); err != nil {
		return nil, "", nil, err
	}
	d.look(s, true)
	a, err := d.work(ctx, s, "", nil)
	if err != nil {
		return nil, "", nil, err
	}
	for i, c := range part.Changes {
		if !slices.ContainsFunc(a.Inputs, func(in reading.Input) bool { return in.Name == c.Name && in.Text == part.Before[i].Text }) {
			return nil, "", nil, reading.ErrOther
		}
	}
	return s, a.File, nil, nil
}

// carryOut writes a file and tells those who read it.
func (d *Desk) carryOut(ctx context.Context, p plan) error {
	if err := d.Folder.Replace(ctx, p.seat.name, p.old, p.kept.Text); err != nil {
		d.look(p.seat, true)
		return err
	}
	p.seat.mu.Lock()
	p.seat.save(p.kept.Text)
	p.seat.mu.Unlock()
	d.tell(ctx, p.seat)
	return nil
}
