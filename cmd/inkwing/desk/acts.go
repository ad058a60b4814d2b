package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"slices"

	"inkwing/cmd/inkwing/disk"
	"inkwing/evaluate/message"
	"inkwing/worksheet"
	"inkwing/worksheet/reading"
)

// A question is what a page asks when it acts.
type question struct {
	Since   string           `json:"since"` // the state that the reader has
	File    string           `json:"file"`  // the text that it was shown
	Changes []reading.Change `json:"changes"`
}

// mostChanges bounds what is tried at a time.
const mostChanges = 500

// act reads the question of an act and sends what comes of it.
func (d *Desk) act(do func(context.Context, *seat, question) (said, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		s, ok := d.seatOf(w, r)
		if !ok {
			return
		}
		var q question
		in := json.NewDecoder(r.Body)
		in.DisallowUnknownFields()
		if err := in.Decode(&q); err != nil || len(q.Changes) > mostChanges {
			refuse(w, http.StatusBadRequest)
			return
		}
		x, err := do(r.Context(), s, q)
		if err != nil {
			sorry(w, err)
			return
		}
		send(w, http.StatusOK, x)
	}
}

// try works the page with other values, and writes nothing.
func (d *Desk) try(ctx context.Context, s *seat, q question) (said, error) {
	a, err := d.work(ctx, s, q.Since, q.Changes)
	if err != nil {
		return said{}, err
	}
	return s.say(a, ""), nil
}

// errOther is what is said where a file is another than the one that was shown.
var errOther = errors.New("the file was saved by another program since this was shown, so nothing was kept; what it holds now is shown, beside what you tried")

// keep writes tried values into the page's file, each at its place.
func (d *Desk) keep(ctx context.Context, s *seat, q question) (said, error) {
	s.acts.Lock()
	defer s.acts.Unlock()
	back, problems, err := d.put(ctx, s, q.File, q.Changes)
	if err != nil || len(problems) > 0 {
		return d.notKept(ctx, s, q, problems, err)
	}
	s.mu.Lock()
	if s.kept = append(s.kept, keep{byName(q.Changes, back), back}); len(s.kept) > mostKept {
		s.kept = slices.Delete(s.kept, 0, 1)
	}
	s.mu.Unlock()
	d.tell(ctx, s)
	return d.done(ctx, s, q.Since, "")
}

// byName are changes in the order of others with the same names.
func byName(changes, order []reading.Change) []reading.Change {
	out := make([]reading.Change, len(order))
	for i, o := range order {
		out[i] = changes[slices.IndexFunc(changes, func(c reading.Change) bool { return c.Name == o.Name })]
	}
	return out
}

// mostKept is how many keeps can be taken back.
const mostKept = 50

// notKept says why nothing was kept, beside what the file holds now.
func (d *Desk) notKept(ctx context.Context, s *seat, q question, problems []reading.Problem, err error) (said, error) {
	switch {
	case errors.Is(err, reading.ErrOther), errors.Is(err, disk.ErrChanged):
		problems = []reading.Problem{{Summary: message.Sentence(errOther.Error())}}
	case err != nil && ctx.Err() == nil:
		problems = []reading.Problem{{Summary: message.Sentence("nothing was kept: " + err.Error())}}
	case err != nil:
		return said{}, err
	}
	d.tell(ctx, s)
	a, err := d.work(ctx, s, q.Since, q.Changes)
	if err != nil {
		return said{}, err
	}
	if len(a.Problems) == 0 {
		a.Problems = problems
	}
	return s.say(a, problems[0].Summary), nil
}

// done is how the page stands after an act.
func (d *Desk) done(ctx context.Context, s *seat, since, says string) (said, error) {
	a, err := d.work(ctx, s, since, nil)
	if err != nil {
		return said{}, err
	}
	return s.say(a, says), nil
}

// undo takes the last keep back, if those values still stand.
func (d *Desk) undo(ctx context.Context, s *seat, q question) (said, error) {
	s.acts.Lock()
	defer s.acts.Unlock()
	s.mu.Lock()
	n := len(s.kept)
	if n == 0 {
		s.mu.Unlock()
		return d.done(ctx, s, q.Since, "There is nothing to take back.")
	}
	last := s.kept[n-1]
	s.kept = s.kept[:n-1]
	s.mu.Unlock()
	d.look(s, true)
	a, err := d.work(ctx, s, "", nil)
	if err != nil {
		return said{}, err
	}
	for _, put := range last.put {
		if !slices.ContainsFunc(a.Inputs, func(in reading.Input) bool { return in.Name == put.Name && in.Text == put.Text }) {
			d.tell(ctx, s)
			return d.done(ctx, s, q.Since, put.Name+" is no longer "+put.Text+", so it is left as it is.")
		}
	}
	if _, problems, err := d.put(ctx, s, a.File, last.back); err != nil || len(problems) > 0 {
		if err != nil { // a file is another than was thought, and is looked at again
			s.mu.Lock()
			s.kept = append(s.kept, last)
			s.mu.Unlock()
		}
		return d.notKept(ctx, s, question{Since: q.Since}, problems, err)
	}
	d.tell(ctx, s)
	return d.done(ctx, s, q.Since, "Taken back: "+last.String()+".")
}

// run works the page and writes its results into its file, as the command does.
func (d *Desk) run(ctx context.Context, s *seat, q question) (said, error) {
	s.acts.Lock()
	defer s.acts.Unlock()
	says, err := d.write(ctx, s)
	if err != nil {
		says = "Nothing was written: " + d.shown(s.name) + " " + err.Error() + "."
	}
	d.look(s, true)
	d.tell(ctx, s)
	return d.done(ctx, s, q.Since, says)
}

func (d *Desk) write(ctx context.Context, s *seat) (string, error) {
	text, err := d.Folder.Read(s.name)
	if err != nil {
		return "", err
	}
	bound, done, err := d.bounded(ctx)
	if err != nil {
		return "", err
	}
	r := worksheet.WorkText(bound, d.Folder, s.name, text)
	stopped := context.Cause(bound)
	done()
	switch {
	case stopped != nil:
		return "", stopped
	case len(r.Refused) > 0:
		line, _ := message.NewSource(s.name, text).Position(r.Refused[0].Span.Start)
		return "", fmt.Errorf("line %d: %s", line, r.Refused[0].Summary)
	case !r.Changed():
		return "The results in the file are right already.", nil
	}
	var beside []disk.File
	for _, c := range slices.Concat(r.Charts, r.Kept) {
		beside = append(beside, disk.File{Name: c.Path, Old: c.Old, New: c.New})
	}
	if err := d.Folder.Update(ctx, disk.File{Name: s.name, Old: bytes.Clone(r.Source), New: r.Output}, beside); err != nil {
		return "", err
	}
	return "The results are written into the file.", nil
}
