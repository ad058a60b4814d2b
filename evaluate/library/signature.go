package library

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"inkwing/evaluate/library/internal/snake"
	"inkwing/evaluate/library/model"
	"inkwing/units"
)

// tags are those that a field may have.
var tags = []string{"unit", "dim", "points", "default", "range", "choose", "help", "name", "show", "rest", "same", "values", "estimated", "asked", "symbol", "overrides"}

var (
	cautionsType = reflect.TypeFor[model.Cautions]()
	estimateType = reflect.TypeFor[model.Estimate]()
	looksType    = reflect.TypeFor[model.Looks]()
)

// fields are the parameters, fields or columns that a struct declares, with
// the faults of their tags. What can be read of a faulty field stands.
func fields(t reflect.Type) ([]Param, error) {
	if known, ok := structs.Load(t); ok {
		read := known.(structRead)
		return slices.Clip(read.params), read.fault
	}
	params, fault := readFields(t)
	structs.Store(t, structRead{params, fault})
	return slices.Clip(params), fault
}

// structs keeps what a struct declares: a store or a motor is part of many
// signatures, and its declaration never changes.
var structs sync.Map // from reflect.Type to structRead

type structRead struct {
	params []Param
	fault  error
}

func readFields(t reflect.Type) ([]Param, error) {
	params := make([]Param, 0, t.NumField())
	var faults []error
	for field := range t.Fields() {
		if field.Type == cautionsType || field.Type == estimateType || field.Type == looksType {
			continue
		}
		if field.Anonymous {
			inner, err := fields(field.Type)
			if field.Tag.Get("show") == "none" {
				inner = unmarked(inner)
			}
			params, faults = append(params, inner...), append(faults, err)
			continue
		}
		p, err := param(field)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s.%s: %w", t, field.Name, err))
		}
		params = append(params, p)
	}
	faults = append(faults, doubled(t, params))
	return params, errors.Join(faults...)
}

// unmarked are the fields of an embedded struct of which a region shows none.
func unmarked(params []Param) []Param {
	params = slices.Clone(params)
	for i := range params {
		params[i].Headline = 0
	}
	return params
}

// doubled says which name a struct has twice, after its parts are flat.
func doubled(t reflect.Type, params []Param) error {
	seen := map[string]bool{}
	for _, p := range params {
		if seen[p.Name] {
			return fmt.Errorf("%s: two fields are named %s", t, p.Name)
		}
		seen[p.Name] = true
	}
	return nil
}

// resultShape is the shape of a result: a record, or its only field's own.
func resultShape(t reflect.Type) (Shape, error) {
	params, err := fields(t)
	if len(params) == 1 {
		return params[0].Shape, err
	}
	return Shape{Kind: RecordOf, Params: params}, err
}

// estimates are the places of the fields that a result's estimate speaks of, -1 for
// a bare value.
func estimates(t reflect.Type) ([]int, error) {
	var places []int
	next, embeds := 0, false
	err := visit(t, func(field reflect.StructField) error {
		if field.Type == estimateType {
			embeds = true
			return nil
		}
		tag, has := field.Tag.Lookup("estimated")
		if has {
			places = append(places, next)
		}
		next++
		number := field.Type
		if number.Kind() == reflect.Pointer {
			number = number.Elem()
		}
		if has && (tag != "true" || number.Kind() != reflect.Float64) {
			return fmt.Errorf("%s.%s: estimated:\"true\" belongs to a quantity", t, field.Name)
		}
		return nil
	})
	switch {
	case err == nil && embeds != (len(places) > 0):
		err = fmt.Errorf("%s: a result with model.Estimate has fields tagged estimated:\"true\", and no other has", t)
	case next == 1 && len(places) == 1:
		places[0] = -1
	}
	return places, err
}

// asked are the fields of a result that are tagged so, by the names of their tags.
func asked(t reflect.Type) (list []Asked) {
	next := 0
	visit(t, func(field reflect.StructField) error {
		if field.Type == estimateType {
			return nil
		}
		if name := field.Tag.Get("asked"); name != "" {
			i := slices.IndexFunc(list, func(a Asked) bool { return a.Name == name })
			if i < 0 {
				list, i = append(list, Asked{Name: name}), len(list)
			}
			list[i].Fields = append(list[i].Fields, next)
		}
		next++
		return nil
	})
	return list
}

// visit calls do on the fields of a struct in order, the estimate among them but
// not the cautions, after embedded structs are flat.
func visit(t reflect.Type, do func(reflect.StructField) error) error {
	for field := range t.Fields() {
		var err error
		switch {
		case field.Type == cautionsType, field.Type == looksType:
		case field.Anonymous && field.Type != estimateType:
			err = visit(field.Type, do)
		default:
			err = do(field)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// param reads one field.
func param(field reflect.StructField) (Param, error) {
	tag, tagFault := readTag(string(field.Tag))
	p := Param{
		Name: snake.Case(field.Name), Help: tag.Get("help"),
		Choose: tag.Get("choose"), Same: tag.Get("same"), Rest: tag.Get("rest") == "true", Symbol: tag.Get("symbol"),
		Overrides: overrides(tag.Get("overrides")),
	}
	if name := tag.Get("name"); name != "" {
		p.Name = name
	}
	shape, shapeFault := shapeOf(field.Type, tag)
	p.Shape = shape
	p.Optional = field.Type.Kind() == reflect.Pointer || p.Choose != ""
	faults := []error{tagFault, shapeFault, p.readRange(tag), p.readDefault(tag), p.readShow(tag)}
	if rest := tag.Get("rest"); rest != "" && (rest != "true" || shape.Kind != ListOf) {
		faults = append(faults, errors.New(`rest:"true" belongs to a list`))
	}
	if p.Same != "" && shape.Kind != ListOf {
		faults = append(faults, errors.New(`same:"…" belongs to a list`))
	}
	return p, errors.Join(faults...)
}

// shapeOf is the shape of a field's Go type with its tag.
func shapeOf(t reflect.Type, tag fieldTag) (Shape, error) {
	switch t.Kind() {
	case reflect.Pointer:
		return shapeOf(t.Elem(), tag)
	case reflect.Float64:
		return quantity(tag)
	case reflect.Int:
		return Shape{Kind: Integer, Unit: one()}, nil
	case reflect.Bool:
		return Shape{Kind: Bool}, nil
	case reflect.String:
		return text(tag)
	case reflect.Struct:
		params, err := fields(t)
		return Shape{Kind: RecordOf, Params: params}, err
	case reflect.Slice:
		return sliceShape(t, tag)
	}
	return Shape{}, fmt.Errorf("the language has no value for the Go type %s", t)
}

// sliceShape is a table for a slice of structs, else a list.
func sliceShape(t reflect.Type, tag fieldTag) (Shape, error) {
	elem, err := shapeOf(t.Elem(), tag)
	if t.Elem().Kind() == reflect.Struct {
		return Shape{Kind: Table, Params: elem.Params}, err
	}
	return Shape{Kind: ListOf, Elem: &elem}, err
}

// quantity reads unit, dim and points. Without any it is a pure number.
func quantity(tag fieldTag) (Shape, error) {
	unit, hasUnit := tag.Lookup("unit")
	dim, points := tag.Get("dim"), tag.Get("points")
	switch {
	case points != "" && (points != "kept" || dim == ""):
		return Shape{Dim: dim}, errors.New(`points:"kept" belongs to a field with dim`)
	case dim != "" && hasUnit:
		return Shape{Dim: dim}, errors.New("it has both a unit and a dim")
	case dim != "":
		return Shape{Dim: dim, Points: points != ""}, goodDim(dim)
	case unit == "":
		return Shape{Unit: one()}, nil
	}
	u, err := units.Parse(unit)
	if err != nil {
		return Shape{Unit: one()}, fmt.Errorf("unit %q: %w", unit, err)
	}
	return Shape{Unit: u}, nil
}

// one is the unit of a pure number.
func one() units.Unit { return units.MustParse("1") }

// goodDim reports whether a dim is a product or quotient of powers of x and y.
func goodDim(dim string) error {
	for part := range strings.FieldsFuncSeq(dim, func(r rune) bool { return r == '*' }) {
		base, power, hasPower := strings.Cut(part, "^")
		num, den, _ := strings.Cut(power, "/")
		ok := base == "x" || base == "y" || base == "y/x" || base == "x/y"
		if _, err := strconv.Atoi(num); hasPower && err != nil {
			ok = false
		}
		if _, err := strconv.Atoi(den); den != "" && err != nil {
			ok = false
		}
		if !ok {
			return fmt.Errorf("dim %q: write powers of x and y, such as x^1/2 or y/x", dim)
		}
	}
	return nil
}

// text reads values.
func text(tag fieldTag) (Shape, error) {
	values, has := tag.Lookup("values")
	list := strings.Fields(values)
	if has && len(list) < 2 {
		return Shape{Kind: Text}, fmt.Errorf("values %q: name two or more", values)
	}
	return Shape{Kind: Text, Values: list}, nil
}

// A fieldTag is a struct tag taken apart once: looking each key up in the text
// took half the time of reading a signature.
type fieldTag []struct{ key, value string }

// readTag takes a tag apart. A key that nothing reads is an error, so that a
// misspelt one is not silent.
func readTag(tag string) (read fieldTag, err error) {
	for tag = strings.TrimSpace(tag); tag != ""; tag = strings.TrimSpace(tag) {
		key, rest, ok := strings.Cut(tag, ":")
		quoted, err := strconv.QuotedPrefix(rest)
		if !ok || err != nil {
			return read, fmt.Errorf("the tag %q is not key:\"value\"", tag)
		}
		if !slices.Contains(tags, key) {
			return read, fmt.Errorf("nothing reads the tag %s; there are %s", key, strings.Join(tags, ", "))
		}
		value, _ := strconv.Unquote(quoted)
		read = append(read, struct{ key, value string }{key, value})
		tag = rest[len(quoted):]
	}
	return read, nil
}

func (t fieldTag) Lookup(key string) (value string, has bool) {
	for _, pair := range t {
		if pair.key == key {
			return pair.value, true
		}
	}
	return "", false
}

func (t fieldTag) Get(key string) string {
	value, _ := t.Lookup(key)
	return value
}

// overrides reads "coil.turns: resistance and inductance; diode_drop".
func overrides(tag string) (list []Override) {
	for part := range strings.SplitSeq(tag, ";") {
		if path, leaves, _ := strings.Cut(part, ":"); strings.TrimSpace(path) != "" {
			list = append(list, Override{strings.TrimSpace(path), strings.TrimSpace(leaves)})
		}
	}
	return list
}

// readShow reads the place among the headline fields.
func (p *Param) readShow(tag fieldTag) error {
	show, has := tag.Lookup("show")
	if !has {
		return nil
	}
	n, err := strconv.Atoi(show)
	if err != nil || n < 1 || n > 5 {
		return fmt.Errorf("show %q: write a place from 1 to 5", show)
	}
	p.Headline = n
	return nil
}
