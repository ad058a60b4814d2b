package library

import (
	"cmp"
	"io/fs"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"inkwing/evaluate/library/model"
)

// TestCautions: each is whole, and its ID has one meaning.
func TestCautions(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, c := range Cautions() {
		if seen[c.ID] {
			t.Errorf("%s is listed twice", c.ID)
		}
		seen[c.ID] = true
		if !kebab.MatchString(c.ID) {
			t.Errorf("%s is not in small letters with hyphens", c.ID)
		}
		for part, text := range map[string]string{"finding": c.Summary, "mend": c.Hint, "source": c.Source} {
			if text == "" {
				t.Errorf("%s (%s) has no %s", c.ID, c.Topic, part)
			}
		}
		if !slices.Contains(topics, c.Topic) || c.Level > model.Danger {
			t.Errorf("%s has the topic %q and the level %d", c.ID, c.Topic, c.Level)
		}
	}
	// One whose ID is set after its literal, and one of each topic that has any.
	for _, id := range []string{"unstable", "radio-fails-before-landing", "cell-over-rating", "spinning-rotor"} {
		if !seen[id] {
			t.Errorf("%s is not listed", id)
		}
	}
}

// TestEveryCautionIsTested wants each caution's ID in some test.
func TestEveryCautionIsTested(t *testing.T) {
	var texts strings.Builder
	err := fs.WalkDir(os.DirFS(".."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, "_test.go") {
			return err
		}
		text, err := fs.ReadFile(os.DirFS(".."), name)
		texts.Write(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range Cautions() {
		if !strings.Contains(texts.String(), strconv.Quote(c.ID)) {
			t.Errorf("no test names %s: raise it over its bound, and not under it", c.ID)
		}
	}
}

func TestCautionsSorted(t *testing.T) {
	list := Cautions()
	if !slices.IsSortedFunc(list, func(a, b Caution) int {
		return cmp.Or(cmp.Compare(slices.Index(topics, a.Topic), slices.Index(topics, b.Topic)), cmp.Compare(a.ID, b.ID))
	}) {
		t.Error("not by topic and ID")
	}
	list[0].ID = "spoilt"
	if Cautions()[0].ID == "spoilt" {
		t.Error("a caller can spoil the list")
	}
}

// TestRaisedIsListed calls every function with plausible arguments: what it
// raises must be on the list, with the level and standing of its ID, and among
// what the function is said to raise.
func TestRaisedIsListed(t *testing.T) {
	listed, said := map[string]Caution{}, map[string]bool{}
	for _, c := range Cautions() {
		listed[c.ID] = c
	}
	random := rand.New(rand.NewPCG(1, 2))
	for _, f := range All() {
		for range 40 {
			_, cautions, _ := f.Call(t.Context(), plausible(f.Params, random))
			for _, c := range cautions {
				want, ok := listed[c.ID]
				switch about := f.Name + " raises " + c.ID; {
				case said[about]:
				case !ok:
					t.Errorf("%s, which is not listed: run go generate ./evaluate/library", about)
					said[about] = true
				case c.Standing != want.Standing:
					t.Errorf("%s with Standing: %t, and the list has %t", about, c.Standing, want.Standing)
					said[about] = true
				}
				if !slices.Contains(raised(f.Name), c.ID) || !slices.Contains(Raisers(c.ID), f.Name) {
					t.Errorf("%s raises %s, which is not among %q", f.Name, c.ID, raised(f.Name))
				}
			}
		}
	}
}

// mostWords is what a finding and what to do about it may have: a line and a half,
// numbers without their units. The hazards of the things themselves say less.
const mostWords, mostStanding = 21, 18

// TestCautionsAreShort wants what a caution says and what to do in few words, each a
// whole sentence. Why and source stand in their own fields, and what is left out
// of the line stands in why.
func TestCautionsAreShort(t *testing.T) {
	sum := 0
	for _, c := range Cautions() {
		n := len(strings.Fields(c.Summary + " " + c.Hint))
		sum += n
		if n > mostWords || c.Standing && n > mostStanding {
			t.Errorf("%s has %d words", c.ID, n)
		}
		if c.Standing && c.Why == "" {
			t.Errorf("%s does not say why", c.ID)
		}
		for _, text := range []string{c.Summary, c.Why, c.Hint} {
			first, _, _ := strings.Cut(text, " ") // a name of the language stays as it is
			if text != "" && (!strings.HasSuffix(text, ".") || strings.ToUpper(text[:1]) != text[:1] && !strings.Contains(first, "_")) {
				t.Errorf("%s: %q is no sentence", c.ID, text)
			}
		}
	}
	if mean := float64(sum) / float64(len(Cautions())); mean > 17 {
		t.Errorf("%.1f words in the middle", mean)
	}
}

// TestHazardsTellAll wants of each hazard what must not get lost however short its
// line becomes: whom it threatens, and what to do, in one of its texts.
func TestHazardsTellAll(t *testing.T) {
	must := map[string]string{
		"flying":             "people,aircraft,aerodromes,in sight,local rules",
		"failsafe":           "signal,motor off,range,test",
		"fibre-dust":         "lungs,skin,splinters,mask,gloves,wet",
		"glue-on-skin":       "eyelids,allergic,nitrile,eye protection,air the room,cotton,doctor",
		"hand-cranking":      "hair,sleeves,fingers,children,cover,clamp,stop on pain,run on",
		"joining-cells":      "polarity,discharged,briefly,fresh air,eyes,vent,poisonous",
		"lithium-charging":   "own charger,stay with it,burns,swollen,freezing,run flat",
		"plugging-in":        "sparks,one-way,before charging,reversed,burns",
		"pressure-vessel":    "water,guard,relief valve,without notice",
		"printing-fumes":     "fumes,air the room,stay by it,hands off,unwatched",
		"residual-charge":    "resistor,joined,measure,recovers,burns",
		"spinning-propeller": "disc,onlookers,arm last,disarm first,plugged in",
		"spinning-rotor":     "magnets,band,guard,never",
		"stored-energy":      "insulate,fuse,rings,eyes,skin,molten",
		"strong-magnets":     "pacemaker,defibrillator,children,swallowed,eyes,never saw,slide",
		"unbalanced-string":  "measure,match,clamp,balance,rated",
	}
	for _, c := range Cautions() {
		all := strings.ToLower(c.Summary + " " + c.Why + " " + c.Hint)
		for _, part := range strings.Split(must[c.ID], ",") {
			if !strings.Contains(all, part) {
				t.Errorf("%s does not say %q", c.ID, part)
			}
		}
		if must[c.ID] == "" && c.Standing && c.Level > model.Advice && c.ID != "control-time-reads-long" {
			t.Errorf("nothing is held of %s", c.ID)
		}
	}
}
