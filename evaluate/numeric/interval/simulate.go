package interval

import (
	"encoding/binary"
	"math/rand/v2"
	"runtime"
	"sync"
)

// Block is how many draws are made at a time: M = 10⁴ of the adaptive
// procedure (JCGM 101:2008, 7.9.4), which is more than 100/(1 − p) = 2000.
const Block = 10_000

// Level is the probability of the intervals by which a simulation stops.
const Level = 0.95

// A Model works a block of draws. Inputs has a column for each input and
// outputs one for each output, all of one length; draw k is element k of
// each. Every element of outputs is to be set, to NaN where it cannot be
// worked. An error ends the simulation.
//
// A model is called by several goroutines at once, each with its own worker
// number below Plan.Workers, by which it may keep scratch memory apart. It
// must not depend on that number otherwise, nor keep the columns.
type Model func(worker int, inputs, outputs [][]float64) error

// A Plan says what to draw, and how often.
type Plan struct {
	Sources []Source // what the inputs are drawn from, in their order
	// Streams name the random stream of each source, so that what is drawn for it
	// does not depend on the others; nil numbers them.
	Streams []uint64
	Outputs int
	Tails   []Tails // of the outputs; nil where all are light
	Draws   int     // at most; two at least, and a thousand million at most
	Seed    uint64  // the same seed gives the same result
	Workers int     // how many goroutines; 0 is one for each core
}

func (p Plan) tails(output int) Tails {
	if p.Tails == nil {
		return Light
	}
	return p.Tails[output]
}

// A Result is what a simulation came to.
type Result struct {
	Draws   int       // made, failed ones included
	Outputs []*Sketch // in their order
	Settled []bool    // which of them are known to two significant digits
}

// AllSettled reports whether the simulation was stopped by its results and not
// by the number of draws.
func (r *Result) AllSettled() bool {
	for _, settled := range r.Settled {
		if !settled {
			return false
		}
	}
	return true
}

// Simulate propagates the distributions of inputs through a model by a Monte
// Carlo method (JCGM 101:2008, clause 7). It draws blocks until, for every
// output, estimate, standard uncertainty and both ends of the shortest 95 %
// interval have settled to two significant digits of the uncertainty (7.9), or
// the number of draws is reached.
//
// Every block and source has a random stream of its own, and blocks are taken
// up in their order: the result depends on plan and model alone, not on the
// number of workers. An output takes no more blocks up once it has settled, so that
// it does not depend on how long the others take. Memory does not grow with the
// number of draws.
func Simulate(p Plan, model Model) (*Result, error) {
	s := newSimulation(p, model)
	if err := s.first(); err != nil {
		return nil, err
	}
	for block := 1; !s.done(); block += len(s.workers) {
		if err := s.round(block); err != nil {
			return nil, err
		}
	}
	return &s.result, nil
}

// shares is into how many blocks few draws are cut, so that every core has work.
const shares = 16

// blockSize is M for so many draws, whatever the number of workers.
func blockSize(draws int) int {
	if draws >= 2*Block {
		return Block
	}
	return max(2, (draws+shares-1)/shares)
}

type simulation struct {
	size    int // of a block
	plan    Plan
	draws   int
	model   Model
	workers []*worker
	result  Result
	series  []series
}

func newSimulation(p Plan, model Model) *simulation {
	s := &simulation{plan: p, draws: max(p.Draws, 2), model: model, series: make([]series, p.Outputs)}
	n := p.Workers
	if n <= 0 {
		n = runtime.GOMAXPROCS(0)
	}
	s.size = blockSize(s.draws)
	blocks := (s.draws + s.size - 1) / s.size
	for i := range min(n, blocks) {
		s.workers = append(s.workers, newWorker(i, p, min(s.draws, s.size)))
	}
	s.result.Settled = make([]bool, p.Outputs)
	return s
}

// first works block 0, which sets the ranges of all sketches.
func (s *simulation) first() error {
	w := s.workers[0]
	if err := w.work(0, s.length(0), s.model); err != nil {
		return err
	}
	for j := range s.plan.Outputs {
		sketch := newSketch(w.outputs[j], s.plan.tails(j))
		s.result.Outputs = append(s.result.Outputs, sketch)
		for _, w := range s.workers {
			w.sketches = append(w.sketches, sketch.like())
		}
	}
	w.sketch()
	s.take(w)
	return nil
}

// round works one block a worker, from that block on, and takes up as many as
// are needed.
func (s *simulation) round(block int) error {
	errs := make([]error, len(s.workers))
	var group sync.WaitGroup
	for i, w := range s.workers {
		if n := s.length(block + i); n > 0 {
			group.Go(func() {
				if errs[i] = w.work(block+i, n, s.model); errs[i] == nil {
					w.sketch()
				}
			})
		}
	}
	group.Wait()
	for i, w := range s.workers {
		if s.done() {
			return nil
		}
		if errs[i] != nil {
			return errs[i]
		}
		s.take(w)
	}
	return nil
}

// length is how many draws a block has; the last may have fewer.
func (s *simulation) length(block int) int { return min(max(s.draws-block*s.size, 0), s.size) }

// done reports whether to stop. Small blocks are there to share the work out: they
// settle by chance, so they do not stop it.
func (s *simulation) done() bool {
	return s.result.Draws >= s.draws || s.size == Block && s.result.AllSettled()
}

// take takes up what a worker has sketched.
func (s *simulation) take(w *worker) {
	s.result.Draws += w.length
	for j, sketch := range w.sketches {
		if s.size == Block && s.result.Settled[j] {
			continue
		}
		s.result.Outputs[j].merge(sketch)
		s.series[j].add(sketch)
		all := s.result.Outputs[j]
		s.result.Settled[j] = s.series[j].settled(all.Estimate(), all.scale())
	}
}

// A worker has the memory for one block.
type worker struct {
	number          int
	plan            Plan
	length          int
	stream          *rand.ChaCha8
	random          *rand.Rand
	inputs, outputs [][]float64
	sketches        []*Sketch
}

func newWorker(number int, p Plan, length int) *worker {
	w := &worker{number: number, plan: p, length: length, stream: rand.NewChaCha8([32]byte{})}
	w.random = rand.New(w.stream)
	for _, source := range p.Sources {
		w.inputs = append(w.inputs, columns(source.Size(), length)...)
	}
	w.outputs = columns(p.Outputs, length)
	return w
}

func columns(n, length int) [][]float64 {
	list := make([][]float64, n)
	for i := range list {
		list[i] = make([]float64, length)
	}
	return list
}

// work draws a block and has the model work it.
func (w *worker) work(block, length int, model Model) error {
	if length != w.length {
		w.shorten(length)
	}
	at := 0
	for i, source := range w.plan.Sources {
		w.seed(block, i)
		source.fill(w.random, w.inputs[at:at+source.Size()])
		at += source.Size()
	}
	return model(w.number, w.inputs, w.outputs)
}

func (w *worker) shorten(length int) {
	w.length = length
	for _, list := range [2][][]float64{w.inputs, w.outputs} {
		for i := range list {
			list[i] = list[i][:length]
		}
	}
}

// seed begins the stream of a source in a block.
func (w *worker) seed(block, source int) {
	var seed [32]byte
	binary.LittleEndian.PutUint64(seed[0:], w.plan.Seed)
	binary.LittleEndian.PutUint64(seed[8:], uint64(block))
	stream := uint64(source)
	if w.plan.Streams != nil {
		stream = w.plan.Streams[source]
	}
	binary.LittleEndian.PutUint64(seed[16:], stream)
	w.stream.Seed(seed)
}

// sketch sums up the block that was worked.
func (w *worker) sketch() {
	for j, sketch := range w.sketches {
		sketch.reset()
		sketch.add(w.outputs[j])
	}
}
