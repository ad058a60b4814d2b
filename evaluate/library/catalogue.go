package library

import (
	"cmp"
	"context"
	"reflect"
	"slices"
	"sync"

	"inkwing/evaluate/library/model"
)

// An entry is a function of the generated catalogue. Its signature is read from
// the tags at its first look-up, so that a run reads only those that it calls.
type entry struct {
	name, topic string
	doc         *Doc
	in, out     reflect.Type
	call        func(ctx context.Context, in []any) (any, []model.Caution, error)
	estimate    func(ctx context.Context, in []any) (model.Estimate, error) // nil for a function that has none
	iterates    bool

	once     sync.Once
	function Function
	fault    error // what is wrong with its tags
}

// topics are in the order of the chain, from the crank to the landing.
var topics = []string{"generator", "energy", "glide", "workshop", "plain"}

// lists are the generated lists, one a folder of the physics, each by name.
var lists = [][]*entry{driveEntries, energyEntries, flightEntries, generatorEntries, glideEntries, plainEntries, workshopEntries}

// catalogue is all of them in one, by name.
var catalogue = sync.OnceValue(func() []*entry {
	return slices.SortedFunc(slices.Values(slices.Concat(lists...)), func(a, b *entry) int { return cmp.Compare(a.name, b.name) })
})

// Lookup finds a function by its name in the language.
func Lookup(name string) (*Function, bool) {
	for _, list := range lists {
		i, ok := slices.BinarySearchFunc(list, name, func(e *entry, name string) int { return cmp.Compare(e.name, name) })
		if ok {
			return list[i].read(), true
		}
	}
	return nil, false
}

// All lists every function, topic by topic along the chain, by name in each.
func All() []*Function {
	var all []*Function
	for _, e := range catalogue() {
		all = append(all, e.read())
	}
	slices.SortStableFunc(all, func(a, b *Function) int {
		return cmp.Compare(slices.Index(topics, a.Topic), slices.Index(topics, b.Topic))
	})
	return all
}

// Names lists the functions' names, sorted, without reading a signature.
func Names() []string {
	var names []string
	for _, e := range catalogue() {
		names = append(names, e.name)
	}
	return names
}

// read is the function with its signature.
func (e *entry) read() *Function {
	e.once.Do(func() {
		params, inFault := fields(e.in)
		result, outFault := resultShape(e.out)
		e.function = Function{Name: e.name, Topic: e.topic, Doc: *e.doc, Params: params, Result: result, Call: e.call, Estimate: e.estimate, Iterates: e.iterates}
		places, estimateFault := estimates(e.out)
		e.function.Estimated, e.function.Asked = places, asked(e.out)
		e.fault = cmp.Or(inFault, outFault, estimateFault)
	})
	return &e.function
}
