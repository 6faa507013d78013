package editor

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net/textproto"
	"strconv"
	"strings"
	"testing"
	"time"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/rule"
)

// Three made-up rules: one that corrects a client's name, one that proposes
// another cloth, one that breaks.
var (
	client = &rule.Rule{
		ID: "head/client-misspelt", Title: "the client is misspelt", Level: finding.Error,
		Doc: "\nChecks\nThe client's name.\n\nBecause\nThe bill goes there.\n\nSource\ncommon practice, no source\n",
		Run: func(p *rule.Pass) {
			if c := p.Order.Client; c.Value == "Otterborne Hall" {
				p.Report(finding.Finding{
					At: c.At, Message: "There is no " + c.Value + ".", Stated: c.Value, Corrected: "Otterbourne Hall", Slip: "a letter was left out",
					Working: []string{"otter + bourne"}, Source: "the address book",
					Related: []finding.Related{{Range: p.Order.Number.At, Message: "of this order"}},
					Fixes:   []finding.Fix{{Title: "Name it Otterbourne Hall", Sureness: finding.Certain, Edits: []finding.Edit{p.Set(c.Node, "Otterbourne Hall")}}},
				})
			}
		},
	}
	market = &rule.Rule{
		ID: "head/market-odd", Title: "the market is odd", Level: finding.Warning,
		Run: func(p *rule.Pass) {
			if m := p.Order.Market; m.Value == "CA" {
				p.Report(finding.Finding{At: m.At, Message: "Ask where it goes.", Fixes: p.Likely(m.Node, "US", "Send it to the US")})
			}
		},
	}
	breaks = &rule.Rule{ID: "head/breaks", Level: finding.Note, Run: func(p *rule.Pass) {
		if p.Order.Client.Value == "Breaker" {
			panic("no such cloth")
		}
	}}
	flaws = &rule.Rule{ID: "form/flawed", Level: finding.Note, Run: func(p *rule.Pass) {
		for _, f := range p.Order.Flaws {
			p.Report(finding.Finding{At: f.At, Message: "A flaw: " + f.Detail})
		}
	}}
)

func open() (*lint.Checker, error) {
	return lint.New([]*rule.Rule{client, market, breaks, flaws})
}

// An editor is one that talks with a server, message by message, in JSON as it
// stands in the protocol's specification.
type editor struct {
	t    *testing.T
	to   io.WriteCloser
	from chan map[string]any
	end  chan error // what Serve returned
	last int        // id of a request
	// aside is what came while something else was waited for.
	aside []map[string]any
}

// start starts a server, and ends it with the test.
func start(t *testing.T, s *Server) *editor {
	t.Helper()
	if s.Open == nil {
		s.Open = open
	}
	s.Name = "cutgate"
	in, to := io.Pipe()
	out, from := io.Pipe()
	e := &editor{t: t, to: to, from: make(chan map[string]any, 1000), end: make(chan error, 1)}
	go func() {
		err := s.Serve(t.Context(), in, from)
		e.end <- err
		in.Close()
		from.Close()
	}()
	go e.read(bufio.NewReader(out))
	t.Cleanup(func() { to.Close() })
	return e
}

func (e *editor) read(r *bufio.Reader) {
	defer close(e.from)
	for {
		head, err := textproto.NewReader(r).ReadMIMEHeader()
		if err != nil {
			return
		}
		n, _ := strconv.Atoi(head.Get("Content-Length"))
		body := make([]byte, n)
		if _, err := io.ReadFull(r, body); err != nil {
			return
		}
		var m map[string]any
		if err := json.Unmarshal(body, &m); err != nil {
			e.t.Errorf("%v: %s", err, body)
			return
		}
		e.from <- m
	}
}

// write sends a body as it is.
func (e *editor) write(body string) {
	e.t.Helper()
	if _, err := fmt.Fprintf(e.to, "Content-Length: %d\r\n\r\n%s", len(body), body); err != nil {
		e.t.Fatal(err)
	}
}

func (e *editor) send(m map[string]any) {
	e.t.Helper()
	m["jsonrpc"] = "2.0"
	body, err := json.Marshal(m)
	if err != nil {
		e.t.Fatal(err)
	}
	e.write(string(body))
}

// tell sends a notification.
func (e *editor) tell(method string, params any) {
	e.t.Helper()
	e.send(map[string]any{"method": method, "params": params})
}

// next waits for a message that the test picks; others are kept for later.
func (e *editor) next(what string, pick func(map[string]any) bool) map[string]any {
	e.t.Helper()
	for i, m := range e.aside {
		if pick(m) {
			e.aside = append(e.aside[:i:i], e.aside[i+1:]...)
			return m
		}
	}
	late := time.After(20 * time.Second)
	for {
		select {
		case m, ok := <-e.from:
			if !ok {
				e.t.Fatalf("the server ended before %s", what)
			}
			if pick(m) {
				return m
			}
			e.aside = append(e.aside, m)
		case <-late:
			e.t.Fatalf("waited in vain for %s", what)
		}
	}
}

// ask sends a request and returns the whole response.
func (e *editor) ask(method string, params any) map[string]any {
	e.t.Helper()
	e.last++
	id := float64(e.last)
	e.send(map[string]any{"id": e.last, "method": method, "params": params})
	return e.next("the answer to "+method, func(m map[string]any) bool { return m["id"] == id && m["method"] == nil })
}

// call sends a request and returns its result as T.
func call[T any](e *editor, method string, params any) (result T) {
	e.t.Helper()
	m := e.ask(method, params)
	if m["error"] != nil {
		e.t.Fatalf("%s: %v", method, m["error"])
	}
	return as[T](e.t, m["result"])
}

// as reads a JSON value as T.
func as[T any](t *testing.T, v any) (out T) {
	t.Helper()
	text, err := json.Marshal(v)
	if err == nil {
		err = json.Unmarshal(text, &out)
	}
	if err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	return out
}

// event waits for a notification and returns its params.
func event[T any](e *editor, method string) T {
	e.t.Helper()
	m := e.next(method, func(m map[string]any) bool { return m["method"] == method })
	return as[T](e.t, m["params"])
}

type object = map[string]any

// all is what an editor says that can do everything.
var all = object{
	"textDocument": object{
		"hover":      object{"contentFormat": []string{"markdown", "plaintext"}},
		"completion": object{"completionItem": object{"documentationFormat": []string{"markdown"}}},
		"codeAction": object{"codeActionLiteralSupport": object{"codeActionKind": object{"valueSet": []string{"quickfix"}}}},
	},
	"workspace": object{
		"workspaceEdit":         object{"documentChanges": true},
		"didChangeWatchedFiles": object{"dynamicRegistration": true},
		"inlayHint":             object{"refreshSupport": true},
	},
}

// initialize goes through the first messages.
func (e *editor) initialize(capabilities any) {
	e.t.Helper()
	call[any](e, "initialize", object{"processId": nil, "rootUri": nil, "capabilities": capabilities})
	e.tell("initialized", object{})
}

// open opens a document.
func (e *editor) open(uri, language, text string) {
	e.t.Helper()
	e.tell("textDocument/didOpen", object{"textDocument": object{"uri": uri, "languageId": language, "version": 1, "text": text}})
}

// change changes a document by edits of ranges, or as a whole.
func (e *editor) change(uri string, version int, changes ...any) {
	e.t.Helper()
	e.tell("textDocument/didChange", object{"textDocument": object{"uri": uri, "version": version}, "contentChanges": changes})
}

type position struct{ Line, Character int }

type place struct{ Start, End position }

func (p place) String() string {
	return fmt.Sprintf("%d:%d-%d:%d", p.Start.Line, p.Start.Character, p.End.Line, p.End.Character)
}

// A report is what publishDiagnostics says.
type report struct {
	URI         string
	Version     *int
	Diagnostics []struct {
		Range              place
		Severity           int
		Code               any
		Source, Message    string
		Tags               []int
		RelatedInformation []struct {
			Location struct {
				URI   string
				Range place
			}
			Message string
		}
	}
}

// lines are a report, a line for each finding.
func (r report) lines() (list []string) {
	for _, d := range r.Diagnostics {
		s := fmt.Sprintf("%v %d %v %s %s", d.Range, d.Severity, d.Code, d.Source, strings.ReplaceAll(d.Message, "\n", " | "))
		for _, x := range d.RelatedInformation {
			s += fmt.Sprintf(" (%v %s)", x.Location.Range, x.Message)
		}
		list = append(list, s)
	}
	return list
}

// reported waits for what is said of a version of a document.
func (e *editor) reported(uri string, version int) report {
	e.t.Helper()
	m := e.next(fmt.Sprintf("the report of %s %d", uri, version), func(m map[string]any) bool {
		if m["method"] != "textDocument/publishDiagnostics" {
			return false
		}
		r := as[report](e.t, m["params"])
		return r.URI == uri && (r.Version == nil && version == 0 || r.Version != nil && *r.Version == version)
	})
	return as[report](e.t, m["params"])
}
