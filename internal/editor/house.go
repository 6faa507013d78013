package editor

import (
	"context"
	"errors"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"time"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"cutgate/internal/house"
	"cutgate/internal/lint"
	"cutgate/internal/source"
)

// houseFaults are what is wrong in house rules and was said, by the file that it
// is in.
type houseFaults map[string]string

// DidSave checks all orders anew where house rules were saved.
func (s *Server) DidSave(_ context.Context, params *protocol.DidSaveTextDocumentParams) error {
	if isHouse(params.TextDocument.URI) {
		s.renew()
	}
	return nil
}

// DidChangeWatchedFiles checks all orders anew: no other files than house rules
// are watched.
func (s *Server) DidChangeWatchedFiles(context.Context, *protocol.DidChangeWatchedFilesParams) error {
	s.renew()
	return nil
}

// renew takes a new checker, which reads house rules anew, and checks everything
// that is open by it.
func (s *Server) renew() {
	s.lock.Lock()
	defer s.lock.Unlock()
	if !s.reopen() {
		return
	}
	said := slices.Sorted(maps.Keys(s.faults))
	s.faults = nil
	var houses []uri.URI
	for _, d := range s.opened {
		s.take(d, d.now.version, d.now.file.Text, d.now.typed)
		if isHouse(d.name) {
			houses = append(houses, d.name)
		}
	}
	checker := s.checker
	go func() {
		for _, file := range said { // what is still wrong is found again
			s.publishFaults(file, nil)
		}
		for _, name := range houses {
			s.tellHouse(checker, name)
		}
		s.lock.Lock()
		for _, d := range s.opened {
			s.checkAfter(d, 0)
		}
		s.lock.Unlock()
		if s.can.refresh {
			_ = s.client.InlayHintRefresh(context.Background())
		}
	}()
}

// isHouse reports whether a document is a shop's house rules.
func isHouse(name uri.URI) bool { return path.Base(name.Path()) == house.FileName }

// tellHouse says what is wrong in house rules that are open, be there orders under
// them or none.
func (s *Server) tellHouse(c *lint.Checker, name uri.URI) {
	if c.Houses == nil || !name.IsFile() {
		return
	}
	_, err := c.Houses.Of(fileName(name))
	s.tellFaults([]lint.Result{{Err: err}})
}

// renewDaily takes a new checker on another day, as waivers have a last one. The
// server is locked.
func (s *Server) renewDaily() {
	if today := s.checker.Today; today != "" && today != time.Now().Format(time.DateOnly) {
		s.reopen()
	}
}

// reopen takes a new checker. The server is locked.
func (s *Server) reopen() bool {
	checker, err := s.Open()
	if err != nil {
		go s.complain("reading house rules again: " + err.Error())
		return false
	}
	s.checker = checker
	return true
}

// tellFaults says what is wrong in the house rules that results come under: once,
// and where it stands.
func (s *Server) tellFaults(results []lint.Result) {
	for i := range results {
		var wrong *house.Error
		if !errors.As(results[i].Err, &wrong) {
			continue
		}
		text := wrong.Error()
		s.lock.Lock()
		said := s.faults[wrong.File] == text
		if s.faults == nil {
			s.faults = make(houseFaults)
		}
		s.faults[wrong.File] = text
		s.lock.Unlock()
		if !said {
			_ = s.client.ShowMessage(context.Background(), &protocol.ShowMessageParams{Type: protocol.MessageTypeError, Message: harmless(text)})
			s.publishFaults(wrong.File, wrong.Faults)
		}
	}
}

// tellDoubts says of house rules that were read, once, why they may not be the shop's own
// words.
func (s *Server) tellDoubts(c *lint.Checker) {
	if c.Houses == nil {
		return
	}
	for _, text := range c.Houses.Doubts() {
		s.lock.Lock()
		said := s.doubted[text]
		if s.doubted == nil {
			s.doubted = make(map[string]bool)
		}
		s.doubted[text] = true
		s.lock.Unlock()
		if !said {
			_ = s.client.ShowMessage(context.Background(), &protocol.ShowMessageParams{Type: protocol.MessageTypeWarning, Message: harmless(text)})
		}
	}
}

// publishFaults says in a file of house rules what is wrong there.
func (s *Server) publishFaults(file string, faults []house.Fault) {
	name, err := filepath.Abs(file)
	if err != nil {
		return
	}
	params := &protocol.PublishDiagnosticsParams{URI: uri.File(name), Diagnostics: make([]protocol.Diagnostic, 0, len(faults))}
	s.lock.Lock()
	text := &source.File{}
	if d := s.opened[params.URI]; d != nil {
		params.URI, text = d.spelled, d.now.places
	}
	s.lock.Unlock()
	for _, f := range faults {
		// What the file says is known only where it is open; else its lines are.
		start := protocol.Position{Line: uint32(max(0, f.At.Line-1)), Character: uint32(max(0, f.At.Column-1))}
		at := protocol.Range{Start: start, End: start}
		if text.Text != "" {
			at = rangeOf(text, wordAt(text, text.Offset(f.At)))
		}
		params.Diagnostics = append(params.Diagnostics, protocol.Diagnostic{
			Range: at, Severity: protocol.DiagnosticSeverityError,
			Source: protocol.NewOptional(s.Name), Message: protocol.String(harmless(f.Message)),
		})
	}
	s.telling.Lock()
	defer s.telling.Unlock()
	_ = s.client.PublishDiagnostics(context.Background(), params)
}

// wordAt is the word or the number that begins at an offset, or the mark that
// stands there.
func wordAt(f *source.File, start int) source.Range {
	end := start
	for end < len(f.Text) && inWord(f.Text[end]) {
		end++
	}
	if end == start && end < len(f.Text) && f.Text[end] > ' ' {
		end++ // all that stands between words is one byte
	}
	return source.Range{Start: start, End: end}
}
