package editor

import (
	"context"
	"encoding/json"
	"path"
	"strings"
	"sync"
	"time"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
)

// pause is how long nothing may be typed before a text is checked, so that a
// word is checked once and not letter by letter.
const pause = 40 * time.Millisecond

// A document is a text that is open in the editor.
type document struct {
	spelled  uri.URI // its name as the editor spells it
	language string
	now      *snapshot
	timer    *time.Timer // of the next check
	checking sync.Mutex  // one check at a time
	name     uri.URI     // the key among those that are open
}

// A snapshot is a version of a document. It never changes.
type snapshot struct {
	uri     uri.URI // as the editor spells it
	version int32
	file    *source.File
	places  *source.File // file, with lines that end where the editor's do
	format  load.Format
	checker *lint.Checker // nil for a text that is no order
	typed   int           // where it was changed last; -1 where it was not

	once    sync.Once
	results []lint.Result
}

// spellingKey is the key of a document's name in a context.
type spellingKey struct{}

// withSpelling notes a document's name as the editor spells it: an editor may
// look for it to the letter in what is sent back.
func withSpelling(ctx context.Context, params []byte) context.Context {
	var raw struct {
		TextDocument struct {
			URI string `json:"uri"`
		} `json:"textDocument"`
	}
	if json.Unmarshal(params, &raw) != nil {
		return ctx
	}
	return context.WithValue(ctx, spellingKey{}, uri.URI(raw.TextDocument.URI))
}

// DidOpen takes up a document.
func (s *Server) DidOpen(ctx context.Context, params *protocol.DidOpenTextDocumentParams) error {
	t := &params.TextDocument
	d := &document{name: t.URI, spelled: t.URI, language: string(t.LanguageID)}
	if spelled, ok := ctx.Value(spellingKey{}).(uri.URI); ok {
		d.spelled = spelled
	}
	s.lock.Lock()
	defer s.lock.Unlock()
	s.renewDaily()
	s.opened[t.URI] = d
	s.take(d, t.Version, t.Text, -1)
	s.checkAfter(d, 0)
	if isHouse(t.URI) {
		go s.tellHouse(s.checker, t.URI)
	}
	return nil
}

// DidChange takes up what was typed.
func (s *Server) DidChange(_ context.Context, params *protocol.DidChangeTextDocumentParams) error {
	s.lock.Lock()
	defer s.lock.Unlock()
	d := s.opened[params.TextDocument.URI]
	if d == nil {
		return nil
	}
	s.renewDaily()
	text, typed := d.now.file.Text, -1
	for i, c := range params.ContentChanges {
		switch c := c.(type) {
		case *protocol.TextDocumentContentChangeWholeDocument:
			text, typed = c.Text, changedAt(text, c.Text)
		case *protocol.TextDocumentContentChangePartial:
			places := d.now.places
			if i > 0 {
				places = placesOf(&source.File{Text: text})
			}
			at := rangeIn(places, c.Range)
			text, typed = text[:at.Start]+c.Text+text[at.End:], at.Start+len(c.Text)
		}
	}
	s.take(d, params.TextDocument.Version, text, typed)
	s.checkAfter(d, pause)
	return nil
}

// DidClose lets go of a document, and of what was said of it.
func (s *Server) DidClose(ctx context.Context, params *protocol.DidCloseTextDocumentParams) error {
	s.lock.Lock()
	d := s.opened[params.TextDocument.URI]
	delete(s.opened, params.TextDocument.URI)
	s.lock.Unlock()
	if d == nil {
		return nil
	}
	go func(ctx context.Context) {
		s.telling.Lock()
		defer s.telling.Unlock()
		if !s.isOpen(params.TextDocument.URI) {
			_ = s.client.PublishDiagnostics(ctx, &protocol.PublishDiagnosticsParams{URI: d.spelled, Diagnostics: []protocol.Diagnostic{}})
		}
	}(context.WithoutCancel(ctx))
	return nil
}

func (s *Server) isOpen(name uri.URI) bool {
	s.lock.Lock()
	defer s.lock.Unlock()
	return s.opened[name] != nil
}

// changedAt is where a changed text is the old one again, up to its end.
func changedAt(old, text string) int {
	n := 0
	for n < min(len(old), len(text)) && old[len(old)-1-n] == text[len(text)-1-n] {
		n++
	}
	return len(text) - n
}

// take makes a text the document's present one, which was changed last at an offset.
// The server is locked.
func (s *Server) take(d *document, version int32, text string, typed int) {
	file := &source.File{Name: fileName(d.name), Text: text}
	now := &snapshot{uri: d.spelled, version: version, file: file, places: placesOf(file), typed: typed}
	if format, ok := formatOf(d.name, d.language, text); ok && !isHouse(d.name) {
		now.format, now.checker = format, s.checker
	}
	d.now = now
}

// snapshot is the present text of a document, or nil where that is no order. Who
// asks inline has the text that the editor had.
func (s *Server) snapshot(name uri.URI) *snapshot {
	s.lock.Lock()
	defer s.lock.Unlock()
	if d := s.opened[name]; d != nil && d.now.checker != nil {
		return d.now
	}
	return nil
}

// check is what came of the orders in the text.
func (p *snapshot) check() []lint.Result {
	p.once.Do(func() {
		p.results = ordersOf(p.checker.For(p.file).Loader, p.file, p.format, p.checker.CheckTyped(p.file, p.format, p.typed))
	})
	return p.results
}

// fileName is what a document is called, and where house rules are looked for: its
// path where it is a file, or where a new one is to be saved.
func fileName(name uri.URI) string {
	if p := name.FsPath(); name.IsFile() || name.Scheme() == "untitled" && strings.HasPrefix(name.Path(), "/") {
		return p
	}
	return path.Base(name.Path())
}

// formatOf returns the format of a document: by the ending of its name, else by
// the language that the editor takes it for, else, of one that is not saved yet,
// by how it begins.
func formatOf(name uri.URI, language, text string) (load.Format, bool) {
	if format, ok := load.FormatOf(name.Path()); ok {
		return format, true
	}
	if format, ok := load.FormatOf("." + language); ok {
		return format, true
	}
	return load.Sniff(text), name.Scheme() == "untitled"
}
