package graph

import "sync"

// kept is what stands above some inputs: a page may ask a thousand times what lies
// between the same one and some output. It is looked for once that has taken as much
// work as the graph is large, and so costs no more than what went before.
type kept struct {
	mu    sync.Mutex
	spent map[asked]int
	sets  map[asked]bits
	words int // of all sets
}

// asked are the inputs of a search; of more than three nothing is kept.
type asked [3]int

func of(inputs []int) (key asked, ok bool) {
	for i := range key {
		key[i] = -1
	}
	return key, copy(key[:], inputs) == len(inputs)
}

// above is the set that is kept, nil for none.
func (k *kept) above(inputs []int) bits {
	key, ok := of(inputs)
	if !ok {
		return nil
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.sets[key]
}

// mostWords bounds the sets that are kept, in words of 64 nodes.
const mostWords = 1 << 20

// pays counts the steps of one search, and reports whether the set is to be kept now.
func (k *kept) pays(inputs []int, steps, nodes int) bool {
	key, ok := of(inputs)
	if !ok {
		return false
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.spent == nil {
		k.spent, k.sets = map[asked]int{}, map[asked]bits{}
	}
	k.spent[key] += steps
	return k.spent[key] >= nodes && k.words+nodes/64 < mostWords
}

func (k *kept) put(inputs []int, above map[int]bool, nodes int) {
	set := make(bits, nodes/64+1)
	for v := range above {
		set[v/64] |= 1 << (v % 64)
	}
	key, _ := of(inputs)
	k.mu.Lock()
	defer k.mu.Unlock()
	k.sets[key] = set
	k.words += len(set)
}

// bits is a set of nodes.
type bits []uint64

func (b bits) has(v int) bool { return b[v/64]&(1<<(v%64)) != 0 }
