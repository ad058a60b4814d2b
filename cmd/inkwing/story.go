package main

import (
	"cmp"
	"context"
	"os"
	"strings"

	"inkwing/cmd/inkwing/layout"
	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate"
	"inkwing/evaluate/report"
)

// isFile reports whether there is a file of that name.
func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && !info.IsDir()
}

// story says how a quantity of a worksheet came about.
func (t *tool) story(ctx context.Context, path, name string, asJSON bool) error {
	f, err := t.find(ctx, &paths{}, []string{path})
	if err != nil {
		return err
	}
	defer f.close()
	g, err := f.only(path)
	if err != nil {
		return err
	}
	ctx, done := boundedWork(ctx)
	defer done()
	o, err := t.openSheet(ctx, g)
	if err != nil || o == nil {
		return err
	}
	var step *report.Step
	var all *report.Report
	t.patiently(ctx, func(ctx context.Context) { step, all = evaluate.Explain(ctx, o.sheet, o.load, name) })
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if step == nil {
		step = given(evaluate.Inputs(ctx, o.sheet, o.load), name)
	}
	if step == nil {
		return noQuantity(name, all)
	}
	if asJSON {
		return wire.Encode(t.out, wire.OfStory(o.shown, o.name, step, o.places()))
	}
	var out strings.Builder
	t.tree(&out, o, step, "")
	t.out.printf("%s", out.String())
	return nil
}

// given is an input without a name of its own, by its address; the quotes of a key may
// be left out. It is nil for any other name.
func given(inputs []report.Input, address string) *report.Step {
	bare := strings.NewReplacer(`"`, "", " ", "")
	for _, in := range inputs {
		if bare.Replace(in.Address) == bare.Replace(address) {
			return &report.Step{Name: in.Address, Path: in.Path, Shown: in.Text, Given: true, Note: in.Note}
		}
	}
	return nil
}

// tree writes a step with those that it came from, indented.
func (t *tool) tree(out *strings.Builder, o *opened, s *report.Step, margin string) {
	pieces := []string{t.out.bold(visible(s.Name)) + " = " + visible(s.Shown)}
	for _, aside := range t.asides(o, s) {
		pieces = append(pieces, t.out.dim(visible(aside)))
	}
	out.WriteString(layout.Flow(pieces, margin, margin+"    ", t.out.width))
	if len(margin) < t.out.width/2 {
		margin += "  "
	}
	if s.Above {
		return
	}
	if s.Fault != "" {
		out.WriteString(t.out.wrap(t.out.red("not worked:")+" "+visible(s.Fault), margin))
	}
	if s.Formula != "" && s.Formula != s.Shown && (!s.Given || len(s.Dependencies) > 0) {
		out.WriteString(t.out.wrap("= "+visible(s.Formula), margin))
	}
	if s.Substituted != "" {
		out.WriteString(t.out.wrap("= "+visible(s.Substituted), margin))
	}
	for _, c := range s.Calls {
		out.WriteString(t.called(c, margin))
	}
	for _, from := range s.Dependencies {
		t.tree(out, o, from, margin)
	}
}

// asides are what stands behind a step's value.
func (t *tool) asides(o *opened, s *report.Step) []string {
	var out []string
	switch {
	case s.Above:
		out = append(out, "(see above)")
	case s.Where != "":
		out = append(out, "("+s.Where+")")
	case s.Given && len(s.Dependencies) == 0:
		out = append(out, "(given)")
	}
	if s.Waits != "" {
		out = append(out, "(waits for "+s.Waits+")")
	}
	if s.Path != o.name && s.Where == "" && !s.Above {
		out = append(out, "("+o.display(s.Path)+")")
	}
	if s.Note != "" {
		out = append(out, "# "+s.Note)
	}
	return out
}

// called is a function with its arguments and what it does.
func (t *tool) called(c report.Call, margin string) string {
	var args []string
	for _, a := range c.Arguments {
		text := a.Name + ": " + a.Text
		if a.Shown != "" {
			text += " (" + a.Shown + ")"
		}
		args = append(args, text)
	}
	says := c.Summary
	if !c.Own && !strings.HasPrefix(says, c.Name) {
		says = c.Name + ": " + says
	}
	if len(args) > 0 {
		says += " Here " + strings.Join(args, ", ") + "."
	}
	if c.Own {
		says = "function " + c.Summary + "; here " + strings.Join(args, ", ")
	}
	margin += "| "
	text := t.out.wrap(visible(says), margin)
	if c.Formula != "" {
		text += t.out.wrap("Formula: "+visible(c.Formula), margin)
	}
	if c.Put != "" {
		text += t.out.wrap("Put in: "+visible(c.Put), margin)
	}
	if with := valued(c.Fields); with != "" {
		text += t.out.wrap("With "+visible(with)+".", margin)
	}
	if taken := valued(c.Defaults); taken != "" {
		text += t.out.wrap(t.out.yellow("By default")+" "+visible(taken)+": nobody gave that, and it bears on the result.", margin)
	}
	return text
}

// valued writes names with their values, those that stand in the formula left out.
func valued(list []report.Argument) string {
	var parts []string
	for _, a := range list {
		if !a.Put {
			parts = append(parts, a.Name+" "+cmp.Or(a.Shown, a.Text))
		}
	}
	return strings.Join(parts, ", ")
}
