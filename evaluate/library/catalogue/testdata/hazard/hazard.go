// Package hazard has cautions that the catalogue can and cannot read.
package hazard

import (
	"elsewhere/other"

	"inkwing/evaluate/library/model"
)

const practice = "common " + "practice"

func plain() model.Caution {
	return model.Caution{ID: "plain", Level: model.Danger, Standing: true, Summary: "It holds {0}.", Hint: "Wait.", Source: practice + ", from memory"}
}

func short() []model.Caution { return []model.Caution{{ID: "short", Summary: "a", Hint: "b"}} }

func pointed() *model.Caution { return &model.Caution{ID: "pointed"} }

func none() model.Caution { return model.Caution{} }

func declared(x float64, what string) (list []model.Caution) {
	mend, level := "slower", model.Warning
	if x > other.Bound(x) {
		mend, level = "not at all", model.Danger
	}
	c := model.Caution{ID: "declared", Level: level, Summary: what + " is (" + what + ") high", Hint: mend}
	if x < 0 {
		c.ID, c.Level = "renamed", model.Danger
		c.Summary = "below zero"
	}
	switch {
	case x == 0:
		c.ID, c.Summary = "in-a-case", "naught"
	}
	return append(list, c)
}

func again() model.Caution { return model.Caution{ID: "short", Summary: "a", Hint: "b"} }

func other1() model.Caution { return model.Caution{ID: "plain", Summary: "another"} }

func named(id string, level model.Level) model.Caution {
	return model.Caution{ID: "x-" + id, Level: level, Summary: other.Text(), Hint: id}
}

func mute() model.Caution { return model.Caution{Summary: "nothing"} }

func bare() model.Caution { return model.Caution{"bare", 0, false, "", "", "", ""} }

func borrowed() model.Caution {
	c := plain()
	c.ID = "borrowed"
	return c
}

func unsure(yes bool) model.Caution { return model.Caution{ID: "unsure", Standing: yes} }

type store struct{}

func (s *store) warn() []model.Caution { return short() }

func through(s *store) {
	point := pointed
	_, _, _ = s.warn(), point(), plain()
}

func round() { about(); plain() }

func about() { round(); short() }
