package main

import (
	"context"
	"io"
	"os"
	"strings"
	"testing"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"cutgate/internal/editor"
	"cutgate/internal/lint"
	"cutgate/rules"
)

// A reader is an editor that only takes what is said of its documents.
type reader struct {
	protocol.UnimplementedClient
	said chan *protocol.PublishDiagnosticsParams
}

func (r reader) PublishDiagnostics(_ context.Context, params *protocol.PublishDiagnosticsParams) error {
	r.said <- params
	return nil
}

// A duplex is a way there and a way back.
type duplex struct {
	io.ReadCloser
	io.WriteCloser
}

func (d duplex) Close() error { return d.WriteCloser.Close() }

// BenchmarkEditor types a letter into a demo order and waits for what is said of
// it. The server waits a little itself for more to be typed.
func BenchmarkEditor(b *testing.B) {
	text, err := os.ReadFile("../../testdata/orders/demo/otterbourne-bath.yaml")
	if err != nil {
		b.Fatal(err)
	}
	in, to := io.Pipe()
	from, out := io.Pipe()
	server := &editor.Server{Name: programName, Open: func() (*lint.Checker, error) {
		flags := readFlags{noHouse: true}
		return flags.checker(rules.All())
	}}
	go func() { _ = server.Serve(b.Context(), in, out) }()
	r := reader{said: make(chan *protocol.PublishDiagnosticsParams, 10)}
	ctx, _, session := protocol.NewClient(b.Context(), r, jsonrpc2.NewHeaderStream(duplex{from, to}))
	if _, err := session.Initialize(ctx, &protocol.InitializeParams{}); err != nil {
		b.Fatal(err)
	}
	const uri = "file:///bath.yaml"
	open := protocol.DidOpenTextDocumentParams{TextDocument: protocol.TextDocumentItem{URI: uri, LanguageID: "yaml", Version: 1, Text: string(text)}}
	if err := session.DidOpen(ctx, &open); err != nil {
		b.Fatal(err)
	}
	if n := len((<-r.said).Diagnostics); n != 0 {
		b.Fatalf("%d findings in a clean order", n)
	}
	version := int32(1)
	line := uint32(strings.Count(string(text[:strings.Index(string(text), "count: 14")]), "\n"))
	for b.Loop() {
		version++
		digit := []string{"4", "3"}[version%2]
		at := protocol.Range{Start: protocol.Position{Line: line, Character: 35}, End: protocol.Position{Line: line, Character: 36}}
		change := protocol.DidChangeTextDocumentParams{ContentChanges: []protocol.TextDocumentContentChangeEvent{
			&protocol.TextDocumentContentChangePartial{Range: at, Text: digit},
		}}
		change.TextDocument.URI, change.TextDocument.Version = uri, version
		if err := session.DidChange(ctx, &change); err != nil {
			b.Fatal(err)
		}
		said := <-r.said
		if v, _ := said.Version.Get(); v != version || len(said.Diagnostics) != int(version%2) {
			b.Fatalf("version %d has %d findings, of version %d", v, len(said.Diagnostics), version)
		}
	}
}
