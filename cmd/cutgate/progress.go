package main

import (
	"fmt"
	"io"
	"os"
	"time"
)

// When the progress line first shows, and how often it changes.
const (
	progressAfter = time.Second
	progressEvery = 200 * time.Millisecond
)

// progress is a line on a terminal that says how far a long run has come. The
// zero value, and one for anything but a terminal, never shows.
type progress struct {
	w     io.Writer // nil where nothing is shown
	start time.Time
	next  time.Time
	done  int
	shown bool
}

func newProgress(err *os.File) *progress {
	if !isTerminal(err) {
		return &progress{}
	}
	now := time.Now()
	return &progress{w: err, start: now, next: now.Add(progressAfter)}
}

// add counts orders that are done.
func (p *progress) add(orders int) {
	p.done += orders
	if p.w == nil {
		return
	}
	now := time.Now()
	if now.Before(p.next) {
		return
	}
	p.clear()
	rate := int64(p.done) * int64(time.Second) / int64(now.Sub(p.start))
	fmt.Fprintf(p.w, "%d orders checked, %d a second", p.done, rate)
	p.next, p.shown = now.Add(progressEvery), true
}

// clear takes the line off the terminal.
func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.w, "\r\x1b[K")
		p.shown = false
	}
}

// end takes the line off for good.
func (p *progress) end() {
	p.clear()
	p.w = nil
}

// before returns a writer to w that takes the line off first, as both may be
// the same terminal.
func (p *progress) before(w io.Writer) io.Writer { return &cleared{p, w} }

type cleared struct {
	p *progress
	w io.Writer
}

func (c *cleared) Write(b []byte) (int, error) {
	c.p.clear()
	return c.w.Write(b)
}
