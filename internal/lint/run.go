package lint

import (
	"context"
	"iter"
	"runtime"
	"sync"

	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// batch is the most texts that are checked as one job: enough that handing jobs
// over costs nothing beside checking them, and few enough that the orders which wait
// to be emitted, at a sixth of a megabyte or so each, don't fill the memory.
const batch = 2

// A job is a few inputs that one worker checks.
type job struct {
	takes []taken
	texts *order.Memory
	parts chan *part // of what came of them, until it is closed
}

// mostInPart is how many results of a job are handed on together: a file of very many orders
// is reported while it is checked, and the memory of what was reported is used again.
const mostInPart = 4

// A part is some results of a job, and the memory that they lie in, but for what the
// memory of the job has of them.
type part struct {
	results []Result
	memory
}

// taken is what came from the inputs: an input, or why there is none.
type taken struct {
	in  Input
	err error
}

// Run checks the inputs on all processors and hands the results to emit in the
// order of the inputs, as many at a time as happen to be ready together. An
// error among the inputs becomes a Result with that error in its place.
//
// Only so many orders are held at once as keep the processors busy, and a text
// is checked as soon as it comes, so inputs may be endless or slow. Run ends
// with the error of emit or of ctx; it then leaves inputs when inputs next
// gives something.
func (c *Checker) Run(ctx context.Context, inputs iter.Seq2[Input, error], emit func([]Result) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	workers := runtime.GOMAXPROCS(0)
	work, queue := make(chan *job), make(chan *job, 4*workers)
	parts := sync.Pool{New: func() any { return new(part) }}
	memories := sync.Pool{New: func() any { return new(order.Memory) }}
	go share(ctx, take(ctx, inputs), work, queue)
	for range workers {
		go func() {
			for j := range work {
				j.texts = memories.Get().(*order.Memory)
				p := parts.Get().(*part)
				hand := func() {
					select {
					case j.parts <- p:
					case <-ctx.Done():
					}
				}
				for _, t := range j.takes {
					c.check(t, j.texts, func() *memory { return &p.memory }, func(res Result) {
						if p.results = append(p.results, res); c.Reuse && len(p.results) == mostInPart {
							hand()
							p = parts.Get().(*part)
						}
					})
				}
				hand()
				close(j.parts)
			}
		}()
	}
	for j := range queue {
		for {
			var p *part // nil at the end
			select {
			case p = <-j.parts:
			case <-ctx.Done():
				return ctx.Err()
			}
			if p == nil {
				break
			}
			if err := emit(p.results); err != nil {
				return err
			}
			if c.Reuse {
				p.reset()
				clear(p.results)
				p.results = p.results[:0]
				parts.Put(p)
			}
		}
		if c.Reuse {
			j.texts.Reset()
			memories.Put(j.texts)
		}
	}
	return ctx.Err()
}

// take reads the inputs ahead.
func take(ctx context.Context, inputs iter.Seq2[Input, error]) <-chan taken {
	ahead := make(chan taken, 4*batch)
	go func() {
		defer close(ahead)
		for in, err := range inputs {
			select {
			case ahead <- taken{in, err}:
			case <-ctx.Done():
				return
			}
		}
	}()
	return ahead
}

// share makes jobs of what is there already, so that a slow input is not waited
// for, and gives each to the workers and to the queue that keeps their order.
func share(ctx context.Context, ahead <-chan taken, work, queue chan<- *job) {
	defer close(queue)
	defer close(work)
	for first := range ahead {
		j := &job{takes: gather(first, ahead), parts: make(chan *part, 4)}
		for _, to := range []chan<- *job{queue, work} {
			select {
			case to <- j:
			case <-ctx.Done():
				return
			}
		}
	}
}

// gather takes texts up to a batch, and ends with a file that is to be read, as
// that is work enough for a job.
func gather(t taken, ahead <-chan taken) []taken {
	list := []taken{t}
	for !t.in.Unread && len(list) < batch {
		var ok bool
		select {
		case t, ok = <-ahead:
		default:
		}
		if !ok {
			break
		}
		list = append(list, t)
	}
	return list
}

// check checks one input, and reads it first where it has not been read.
func (c *Checker) check(t taken, text *order.Memory, given func() *memory, emit func(Result)) {
	f := t.in.File
	if f == nil {
		f = new(source.File)
	}
	passes, err := false, t.err
	if err == nil && t.in.House {
		_, err = c.under(f)
	}
	if err == nil {
		passes, err = c.Take(&t.in)
	}
	switch {
	case err != nil:
		emit(Result{File: f, Err: err})
	case !passes:
		c.checkEach(f, t.in.Format, 0, text, given, emit)
	}
}

// Take reads an input that is to be read, and reports whether it is passed over: it
// holds no orders, and nobody named it by itself. Of one in a folder that is said, as an
// error. A large one of these is not read at all where its beginning tells.
func (c *Checker) Take(in *Input) (passes bool, err error) {
	if in.House {
		return true, nil
	}
	if passes, err = in.foreign(c.Loader); !passes && err == nil {
		if err := in.Read(); err != nil {
			return false, err
		}
		passes = c.passes(in)
	}
	if passes && in.Found && err == nil {
		err = &Skipped{in.File.Name}
	}
	return passes, err
}

// passes is Take of an input that was read. One that can't even be looked into is not
// passed over.
func (c *Checker) passes(in *Input) (passes bool) {
	if !in.Listed && !in.Found || in.Found && !load.IsTable(in.Format) && !c.Loader.Tells(in.File, in.Format) {
		return false
	}
	defer func() {
		if recover() != nil {
			passes = false
		}
	}()
	has := c.Loader.HasOrders
	if in.Found {
		if has = c.Loader.ShowsOrders; !load.IsTable(in.Format) && c.Loader.Plainly(in.File.Text, in.Format) {
			return false // as most are: it is read once
		}
	}
	return !has(in.File, in.Format, load.Options{TrustCUE: c.TrustCUE})
}
