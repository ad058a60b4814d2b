package rules

import (
	"reflect"
	"strings"
	"sync"

	"inkwing/evaluate/message"
	"inkwing/units"
)

// common is what every row tells.
type common struct {
	Journal string  `expr:"journal" help:"the journal's path"`
	Line    float64 `expr:"line" help:"where it stands in the journal"`

	span  message.Span
	kind  *units.Kind  // of the row's measures, nil for none
	own   units.Unit   // in which the builder wanted to see them, zero for none
	wants []units.Kind // what the predicate being asked compares measures with
	unfit int          // which of them the row is not, from 1; 0 for none
}

// fits reports whether the row's measures are of a kind, and remembers where not:
// what follows from such a question is no answer.
func (c *common) fits(i int) bool {
	ok := c.kind != nil && alikeKinds(*c.kind, c.wants[i])
	if !ok {
		c.unfit = i + 1
	}
	return ok
}

// alikeKinds reports whether two kinds can be compared. A rotation and a rate
// cannot: a factor of 2π lies between them.
func alikeKinds(a, b units.Kind) bool {
	return a.Dim == b.Dim && (a.Mark == b.Mark || a.Mark == units.Neutral || b.Mark == units.Neutral)
}

func (c *common) base() *common { return c }

// A row is one thing of a journal that can be asked about.
type row interface {
	base() *common
	title() string
}

// A quantityRow is a quantity, or one that was given.
type quantityRow struct {
	common
	Name        string  `expr:"name" help:"its name, with its record's before a dot"`
	Value       float64 `expr:"value" measure:"value" help:"what it came to"`
	Words       string  `expr:"words" help:"what a quantity says that is a text"`
	Holds       bool    `expr:"holds" help:"whether a quantity that is yes or no is yes"`
	Unit        string  `expr:"unit" measure:"unit" help:"the unit of its dimension, in any spelling"`
	Given       bool    `expr:"given" help:"whether it is a plain value, and not worked"`
	Uncertain   bool    `expr:"uncertain" help:"whether anything uncertain bears on it"`
	Uncertainty float64 `expr:"uncertainty" measure:"difference" help:"expanded uncertainty, at 95.45 %"`
	Low         float64 `expr:"low" measure:"value" help:"where its interval begins"`
	High        float64 `expr:"high" measure:"value" help:"where its interval ends"`
	Note        string  `expr:"note" help:"the remark behind it"`
	Failed      bool    `expr:"failed" help:"whether it could not be worked"`

	shown string
	truth bool
}

func (r *quantityRow) title() string { return "`" + r.Name + "`" }

// A limitRow is a bound of the builder's own.
type limitRow struct {
	common
	Text     string  `expr:"text" help:"the limit as it was written"`
	Kept     bool    `expr:"kept" help:"whether it holds"`
	Doubtful bool    `expr:"doubtful" help:"whether the bound lies within the interval of what was worked"`
	Worked   float64 `expr:"worked" measure:"value" help:"what was worked"`
	Allowed  float64 `expr:"allowed" measure:"value" help:"the bound"`
	Headroom float64 `expr:"headroom" help:"what is left, as a share of the bound"`
	Advice   string  `expr:"advice" help:"what it says to do"`
	Failed   bool    `expr:"failed" help:"whether it could not be worked"`

	shown [2]string // what was worked, and what is allowed
}

func (r *limitRow) title() string { return "the limit `" + r.Text + "`" }

// A cautionRow is a point to stop at.
type cautionRow struct {
	common
	ID     string `expr:"id" help:"its name, as explain lists it"`
	Kind   string `expr:"kind" words:"limit model standing" help:"where it comes from"`
	Level  string `expr:"level" words:"advice warning danger" help:"how grave it is"`
	Text   string `expr:"text" help:"what it says"`
	Source string `expr:"source" help:"where its bound comes from"`
}

func (r *cautionRow) title() string { return "the caution `" + r.ID + "`" }

// A tableRow is what a study came to.
type tableRow struct {
	common
	Verb    string   `expr:"verb" words:"vary adjust tune budget measured" help:"the word that made it"`
	Name    string   `expr:"name" help:"the name it goes under"`
	Rows    float64  `expr:"rows" help:"how many rows it has"`
	Columns []string `expr:"columns" help:"its headings"`
	Failed  bool     `expr:"failed" help:"whether it could not be worked"`
}

func (r *tableRow) title() string {
	return "the table of `" + strings.TrimSpace(r.Verb+" "+r.Name) + "`"
}

// An errorRow is a line that could not be worked.
type errorRow struct {
	common
	Summary string `expr:"summary" help:"what is wrong"`
	Hint    string `expr:"hint" help:"what mends it"`
}

func (r *errorRow) title() string { return "the error `" + r.Summary + "`" }

// A chartRow is a drawing.
type chartRow struct {
	common
	Title  string `expr:"title" help:"its title"`
	Shows  string `expr:"shows" help:"what it shows, in words"`
	Failed bool   `expr:"failed" help:"whether it could not be drawn"`
}

func (r *chartRow) title() string { return "the chart `" + r.Title + "`" }

// A Subject is a kind of row.
type Subject struct {
	Name   string
	Says   string // what it is
	Fields []Field
	empty  any // a pointer to such a row
}

// A Field is something that a row tells.
type Field struct {
	Name    string
	Help    string
	measure string   // value, difference, or unit; empty for what has a unit of its own
	words   []string // all that it can say, if that is known
	kind    reflect.Kind
	index   []int
}

// Subjects lists the kinds of rows.
func Subjects() []Subject { return subjects() }

var subjects = sync.OnceValue(func() []Subject {
	list := []Subject{
		{Name: "quantity", Says: "what was given or worked", empty: &quantityRow{}},
		{Name: "given", Says: "a plain value", empty: &quantityRow{}},
		{Name: "limit", Says: "a bound of the builder's own", empty: &limitRow{}},
		{Name: "caution", Says: "a point to stop at", empty: &cautionRow{}},
		{Name: "table", Says: "what a study came to", empty: &tableRow{}},
		{Name: "error", Says: "a line that could not be worked", empty: &errorRow{}},
		{Name: "chart", Says: "a drawing", empty: &chartRow{}},
	}
	for i := range list {
		list[i].Fields = fieldsOf(reflect.TypeOf(list[i].empty).Elem(), nil)
	}
	return list
})

// Columns are the names of all columns that a search can show.
var Columns = sync.OnceValue(func() []string {
	list := []string{interval.Name}
	for _, s := range subjects() {
		for _, f := range s.Fields {
			list = append(list, f.Name)
		}
	}
	return list
})

// fieldsOf reads the fields of a row, those of its own before those of all rows.
func fieldsOf(t reflect.Type, index []int) (own []Field) {
	var shared []Field
	for i := range t.NumField() {
		f := t.Field(i)
		at := append(index[:len(index):len(index)], i)
		name := f.Tag.Get("expr")
		switch {
		case f.Anonymous:
			shared = fieldsOf(f.Type, at)
		case name != "":
			own = append(own, Field{Name: name, Help: f.Tag.Get("help"), measure: f.Tag.Get("measure"),
				words: strings.Fields(f.Tag.Get("words")), kind: f.Type.Kind(), index: at})
		}
	}
	return append(own, shared...)
}

// subject is the kind of row of a name.
func subject(name string) (Subject, bool) {
	for _, s := range subjects() {
		if s.Name == name {
			return s, true
		}
	}
	return Subject{}, false
}

func (s Subject) field(name string) (Field, bool) {
	for _, f := range s.Fields {
		if f.Name == name {
			return f, true
		}
	}
	return Field{}, false
}

func (s Subject) names() (list []string) {
	for _, f := range s.Fields {
		list = append(list, f.Name)
	}
	return list
}

// article is the subject with its article.
func (s Subject) article() string {
	if strings.ContainsRune("aeiou", rune(s.Name[0])) {
		return "an " + s.Name
	}
	return "a " + s.Name
}

// tells is the sentence that lists what can be asked.
func (s Subject) tells() string {
	return s.article() + " tells " + strings.Join(s.names(), ", ")
}

// of is a field's value in a row.
func (f Field) of(r row) any { return reflect.ValueOf(r).Elem().FieldByIndex(f.index).Interface() }

// interval is a column that only a table has: where a quantity's true value lies.
var interval = Field{Name: "interval", Help: "where its true value lies", measure: "interval", kind: reflect.String}

// shownFields are those that a table can show.
func (s Subject) shownFields() []Field {
	list := s.Fields
	if _, ok := s.empty.(*quantityRow); ok {
		list = append(list[:len(list):len(list)], interval)
	}
	return list
}

// usual are the columns of a table for which none were named.
func (s Subject) usual() (list []Field) {
	names := map[string]string{
		"quantity": "journal name value interval line", "given": "journal name value interval line",
		"limit": "journal text worked allowed headroom line", "caution": "journal level id text line",
		"table": "journal verb name rows line", "error": "journal summary hint line", "chart": "journal title shows line",
	}
	for _, name := range strings.Fields(names[s.Name]) {
		for _, f := range s.shownFields() {
			if f.Name == name {
				list = append(list, f)
			}
		}
	}
	return list
}

// Says is what a field tells, and all that it can say where that is known.
func (f Field) Says() string {
	if len(f.words) == 0 {
		return f.Help
	}
	return f.Help + ": " + strings.Join(f.words, ", ")
}
