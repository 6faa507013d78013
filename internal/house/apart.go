package house

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"strings"
	"sync"
	"time"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/parser"

	"cutgate/internal/form"
)

// How long a file of house rules may take to be read, and an order to be held against
// its rules, and how much memory that may take. Rules that do more than to compare are
// evaluated in a process of their own, which is ended when it takes more.
const (
	loadWithin  = 10 * time.Second
	orderWithin = 2 * time.Second
	maxMemory   = 512 << 20 // bytes
)

// A request is what a process of its own is asked: to read a file, or to hold items
// against a rule.
type request struct {
	Name  string  `json:",omitempty"` // of a file to read
	Text  string  `json:",omitempty"`
	Known []Known `json:",omitempty"`

	Rule  int      `json:",omitempty"` // among the shop's own
	Items []string `json:",omitempty"` // as CUE
}

// A reply is its answer. Before it, the line of each rule is told that is begun.
type reply struct {
	Line    int      `json:",omitempty"` // begun; 0 in the answer
	Answers []answer `json:",omitempty"` // for each item
}

// Serve evaluates house rules for another process. It ends this one, with the code that
// it hands to exit, when there is no more to read from the other, whatever is being
// evaluated, and where that takes too much memory.
func Serve(in io.Reader, out io.Writer, exit func(code int)) error {
	limitMemory(maxMemory)
	debug.SetMemoryLimit(maxMemory * 3 / 4)
	go watchMemory(exit)
	requests := make(chan request)
	go func() {
		d := json.NewDecoder(in)
		for {
			var req request
			if d.Decode(&req) != nil {
				exit(0)
				return
			}
			requests <- req
		}
	}()
	replies := json.NewEncoder(out)
	var e *evaluator
	for req := range requests {
		var rep reply
		if req.Name != "" {
			h, err := readApart(&req, func(line int) { _ = replies.Encode(reply{Line: line}) })
			if err != nil {
				return err
			}
			if h != nil && len(h.Rules) > 0 {
				e = h.Rules[0].pool.make()
			}
		} else {
			if e == nil || req.Rule >= len(e.check) {
				return errors.New("there is no such rule")
			}
			for _, text := range req.Items {
				rep.Answers = append(rep.Answers, evaluate(e.when[req.Rule], e.check[req.Rule], e.ctx.CompileString(text)))
			}
		}
		if err := replies.Encode(rep); err != nil {
			return err
		}
	}
	return nil
}

// watchMemory ends the process where it has taken too much.
func watchMemory(exit func(code int)) {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	for {
		metrics.Read(sample)
		if sample[0].Value.Uint64() > maxMemory {
			exit(1)
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
}

// readApart reads a file rule by rule, so that it is known which one takes too long, and
// then as a whole. It tells the line of what is begun. A file that is wrong is none.
func readApart(req *request, begun func(line int)) (*House, error) {
	tables, err := form.Tables()
	if err != nil {
		return nil, err
	}
	text := strings.TrimPrefix(req.Text, byteOrderMark)
	for i := 0; ; i++ {
		file, err := parser.ParseFile(req.Name, text)
		if err != nil {
			return nil, nil
		}
		line := onlyRule(file, i)
		if i > 0 && line == 0 {
			break
		}
		if line > 0 {
			begun(line)
			_ = cuecontext.New().BuildFile(file).Validate() // what is wrong is reported by who asked
		}
	}
	h, err := Read(req.Name, req.Text, tables, req.Known)
	if wrong := (*Error)(nil); errors.As(err, &wrong) {
		return nil, nil
	}
	return h, err
}

// onlyRule leaves of the shop's own rules only the one of that number, and returns its
// line; 0 where there is none of that number.
func onlyRule(file *ast.File, number int) (line int) {
	n := 0
	for _, d := range file.Decls {
		f, ok := d.(*ast.Field)
		if !ok {
			continue
		}
		name, _, err := ast.LabelName(f.Label)
		group, ok := f.Value.(*ast.StructLit)
		if err != nil || name != "rules" || !ok {
			continue
		}
		var kept []ast.Decl
		for _, d := range group.Elts {
			if _, ok := d.(*ast.Field); !ok {
				kept = append(kept, d)
				continue
			}
			if n == number {
				kept, line = append(kept, d), d.Pos().Line()
			}
			n++
		}
		group.Elts = kept
	}
	return line
}

// A process evaluates the rules of one house apart from this one.
type process struct {
	cmd     *exec.Cmd
	in      io.WriteCloser
	replies chan reply // closed when it has ended
	line    int        // of what it has begun last
	left    time.Duration
}

// startApart starts a process, which reads a house at first. The error says what it could
// not cope with, at the line of the rule.
func startApart(start func() *exec.Cmd, name, text string, known []Known, first int) (*process, error) {
	p := &process{cmd: start(), replies: make(chan reply), line: first, left: loadWithin}
	in, err := p.cmd.StdinPipe()
	var out io.ReadCloser
	if err == nil {
		out, err = p.cmd.StdoutPipe()
	}
	if err == nil {
		err = p.cmd.Start()
	}
	if err != nil {
		return nil, fmt.Errorf("evaluating %s: %w", name, err)
	}
	p.in = in
	go func(cmd *exec.Cmd, replies chan<- reply) { // which does not keep p alive
		d := json.NewDecoder(out)
		for {
			var rep reply
			if d.Decode(&rep) != nil {
				break
			}
			replies <- rep
		}
		_ = cmd.Wait()
		close(replies)
	}(p.cmd, p.replies)
	runtime.AddCleanup(p, func(in io.WriteCloser) { in.Close() }, in) // ends it
	_, err = p.ask(name, request{Name: name, Text: text, Known: known}, loadWithin)
	return p, err
}

// ask asks the process for something, and ends it where that takes too long in all.
func (p *process) ask(name string, req request, within time.Duration) ([]answer, error) {
	sent := make(chan error, 1)
	go func() { sent <- json.NewEncoder(p.in).Encode(req) }()
	began := time.Now()
	timer := time.NewTimer(p.left)
	defer timer.Stop()
	defer func() { p.left -= time.Since(began) }()
	for {
		select {
		case rep, ok := <-p.replies:
			switch {
			case !ok:
				return nil, p.fault(name, fmt.Sprintf("this takes more than %d MiB of memory, so it was stopped: only compare a few words and numbers", maxMemory>>20))
			case rep.Line > 0:
				p.line = rep.Line
				continue
			}
			return rep.Answers, nil
		case <-timer.C:
			p.end()
			return nil, p.fault(name, fmt.Sprintf("this takes longer than %v, so it was stopped: only compare a few words and numbers", within))
		}
	}
}

// end ends the process.
func (p *process) end() {
	_ = p.cmd.Process.Kill()
	go func() {
		for range p.replies { // until it has ended
		}
	}()
}

func (p *process) fault(name, message string) *Error {
	f := Fault{Message: message}
	f.At.Line, f.At.Column = p.line, 1
	return &Error{File: name, Faults: []Fault{f}}
}

// apart says how a house's rules are evaluated in processes of their own.
type apart struct {
	start func() *exec.Cmd
	known []Known
	first int // the line that the first rule computes on

	lock   sync.Mutex
	tried  *process // which has read the house already; nil once it is taken
	broken error    // what a process could not cope with; no other is started
}

// take returns a process for an order.
func (a *apart) take(b *pool) (*process, error) {
	a.lock.Lock()
	p, err := a.tried, a.broken
	a.tried = nil
	a.lock.Unlock()
	if err != nil || p != nil {
		return p, err
	}
	p, err = startApart(a.start, b.name, b.whole, a.known, a.first)
	if err != nil {
		return nil, a.breaks(err)
	}
	return p, nil
}

func (a *apart) breaks(err error) error {
	a.lock.Lock()
	defer a.lock.Unlock()
	if a.broken == nil {
		a.broken = err
	}
	return a.broken
}

// An answer is how an item agrees with a rule.
type answer struct {
	Clashes []clash  `json:",omitempty"`
	Lacks   []string `json:",omitempty"` // the paths of fields that are not there, and must be
}

// A clash is where a constraint and an item's value don't agree.
type clash struct {
	Path          string
	Invalid       bool   `json:",omitempty"` // the second is a constraint that does not hold for the first
	First, Second string `json:",omitempty"` // as they are written; "" where that can't be told
}

// evaluate holds an item against a rule. It agrees where the answer is empty.
func evaluate(when, check, item cue.Value) (a answer) {
	if when.Exists() && !agrees(when, item) {
		return a
	}
	return clashes(check, item)
}
