// Package editor is the language server: it tells an editor what is wrong with
// the orders that are open in it while they are typed, and answers what can be
// written where. It speaks the Language Server Protocol 3.17.
//
// # Law
//
// All that it says of a text comes from the one pipeline, given the text as the
// editor has it, saved or not. What is said of a version of a text is never
// replaced by what was found in an older one. Places go to and come from the editor
// as lines and UTF-16 units. Nothing that an editor sends ends the server but exit
// and the end of its input.
//
// # What it is not
//
// It changes no file: it hands edits to the editor, which makes them.
package editor

import (
	"context"
	"errors"
	"fmt"
	"io"
	"sync"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"cutgate/internal/lint"
)

// ErrLeft is the error of an editor that went away without shutting the server
// down first.
var ErrLeft = errors.New("the editor left without shutting down")

// A Server serves one editor. Its exported fields must not change once it
// serves.
type Server struct {
	// Open returns a checker. It is asked for a new one when house rules were
	// changed, as a checker reads those once, and on another day.
	Open func() (*lint.Checker, error)
	// Name is what the program is called: the source of what it finds.
	Name string

	protocol.UnimplementedServer

	client protocol.Client
	exit   context.CancelFunc
	can    abilities

	telling sync.Mutex // held while diagnostics are sent, so that they go out in order

	lock    sync.Mutex // of all below
	phase   phase
	checker *lint.Checker
	opened  map[uri.URI]*document
	faults  houseFaults
	doubted map[string]bool // what was said of house rules that others may have written
}

// A phase is how far the editor has come with the server.
type phase uint8

const (
	waiting  phase = iota // for initialize
	serving               // from initialize on
	shut                  // down: nothing but exit may come
	departed              // after exit
)

// Serve serves the editor that writes to in and reads from out, until it says
// exit or in ends. It returns ErrLeft where the editor had not shut the server down.
func (s *Server) Serve(ctx context.Context, in io.Reader, out io.Writer) error {
	checker, err := s.Open()
	if err != nil {
		return fmt.Errorf("starting the language server: %w", err)
	}
	s.checker, s.opened = checker, make(map[uri.URI]*document)
	var until context.Context
	until, s.exit = context.WithCancel(ctx)
	defer s.exit()
	conn := jsonrpc2.NewConn(newStream(in, out), jsonrpc2.WithCodec(codec{}))
	s.client = protocol.ClientDispatcher(conn)
	conn.Go(ctx, s.handler())
	select {
	case <-conn.Done():
	case <-until.Done():
	}
	s.lock.Lock()
	defer s.lock.Unlock()
	was := s.phase
	s.phase = departed
	clear(s.opened) // what is still being checked is told to nobody
	switch {
	case was == shut:
		return nil
	case conn.Err() != nil:
		return fmt.Errorf("%w: %w", ErrLeft, conn.Err())
	}
	return ErrLeft
}

// handler handles what comes from the editor: one message after the other, so
// that a request is answered for the text that the editor had when it asked. A
// request that may take long lets go of the next message once it has that text.
func (s *Server) handler() jsonrpc2.Handler {
	inner := protocol.CancelHandler(protocol.ServerHandler(s, jsonrpc2.MethodNotFoundHandler))
	return func(ctx context.Context, req *jsonrpc2.Request) (result any, err error) {
		method, call := req.Method(), req.IsCall()
		defer func() {
			if v := recover(); v != nil {
				err = jsonrpc2.Errorf(jsonrpc2.InternalError, "%s broke: %v", method, v)
				s.complain(fmt.Sprintf("%s broke: %v", method, v))
			}
			if !call {
				result, err = nil, nil // an error would end the connection, and nobody waits for it
			}
		}()
		if err := s.admit(method); err != nil {
			return nil, err
		}
		// The connection's own context of a request is used for another one when
		// the handler returns, while what was derived from it may still look at it.
		within := context.WithValue(jsonrpc2.DetachContext(ctx), letGoKey{}, func() { jsonrpc2.Async(ctx) })
		if method == protocol.MethodTextDocumentDidOpen {
			within = withSpelling(within, req.Params())
		}
		result, err = inner(within, req)
		switch {
		case errors.Is(err, jsonrpc2.ErrParse):
			err = jsonrpc2.Errorf(jsonrpc2.InvalidParams, "%v", err)
		case errors.Is(err, context.Canceled):
			err = protocol.ErrRequestCancelled
		}
		return result, err
	}
}

// letGoKey is the key of what lets go of the next message.
type letGoKey struct{}

// letGo lets the next message come while a request is still being answered. It is
// called once for a request.
func letGo(ctx context.Context) {
	if f, ok := ctx.Value(letGoKey{}).(func()); ok {
		f()
	}
}

// admit reports why a message may not come now.
func (s *Server) admit(method string) error {
	s.lock.Lock()
	defer s.lock.Unlock()
	switch {
	case method == protocol.MethodExit:
		return nil
	case s.phase == waiting && method != protocol.MethodInitialize:
		return jsonrpc2.Errorf(jsonrpc2.ServerNotInitialized, "%s came before initialize", method)
	case s.phase == serving && method == protocol.MethodInitialize:
		return jsonrpc2.Errorf(jsonrpc2.InvalidRequest, "initialize came twice")
	case s.phase >= shut:
		return jsonrpc2.Errorf(jsonrpc2.InvalidRequest, "%s came after shutdown", method)
	}
	return nil
}

// complain puts an error of the server's own into the editor's log.
func (s *Server) complain(text string) {
	// Where it can't be told, the connection is gone.
	_ = s.client.LogMessage(context.Background(), &protocol.LogMessageParams{Type: protocol.MessageTypeError, Message: text})
}
