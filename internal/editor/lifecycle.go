package editor

import (
	"context"
	"slices"

	"go.lsp.dev/protocol"

	"cutgate/internal/house"
)

// abilities are what the editor can do, as far as it matters here.
type abilities struct {
	markdown  bool // in hovers
	notes     bool // markdown in what documents a completion
	actions   bool // takes code actions, not commands only
	versioned bool // takes edits of a version of a document
	watch     bool // tells of changed files when asked to
	refresh   bool // asks for inlay hints anew when told to
}

func abilitiesOf(c *protocol.ClientCapabilities) (can abilities) {
	yes := func(b *bool) bool { return b != nil && *b }
	if w := c.Workspace; w != nil {
		can.versioned = w.WorkspaceEdit != nil && yes(w.WorkspaceEdit.DocumentChanges)
		can.watch = w.DidChangeWatchedFiles != nil && yes(w.DidChangeWatchedFiles.DynamicRegistration)
		can.refresh = w.InlayHint != nil && yes(w.InlayHint.RefreshSupport)
	}
	if t := c.TextDocument; t != nil {
		can.markdown = t.Hover != nil && slices.Contains(t.Hover.ContentFormat, protocol.MarkupKindMarkdown)
		can.notes = t.Completion != nil && t.Completion.CompletionItem != nil &&
			slices.Contains(t.Completion.CompletionItem.DocumentationFormat, protocol.MarkupKindMarkdown)
		can.actions = t.CodeAction != nil && len(t.CodeAction.CodeActionLiteralSupport.CodeActionKind.ValueSet) > 0
	}
	return can
}

// Initialize answers what the server can do.
func (s *Server) Initialize(_ context.Context, params *protocol.InitializeParams) (*protocol.InitializeResult, error) {
	s.can = abilitiesOf(&params.Capabilities)
	yes, change := true, protocol.TextDocumentSyncKindIncremental
	can := protocol.ServerCapabilities{
		PositionEncoding: protocol.PositionEncodingKindUTF16,
		TextDocumentSync: &protocol.TextDocumentSyncOptions{OpenClose: &yes, Change: &change, Save: protocol.Boolean(true)},
		HoverProvider:    protocol.Boolean(true),
		CompletionProvider: &protocol.CompletionOptions{
			TriggerCharacters: completionTriggers,
		},
		InlayHintProvider: protocol.Boolean(true),
	}
	if s.can.actions {
		can.CodeActionProvider = &protocol.CodeActionOptions{CodeActionKinds: actionKinds}
	}
	s.lock.Lock()
	s.phase = serving
	s.lock.Unlock()
	return &protocol.InitializeResult{Capabilities: can, ServerInfo: protocol.ServerInfo{Name: s.Name}}, nil
}

// Initialized asks for word of changed house rules.
func (s *Server) Initialized(ctx context.Context, _ *protocol.InitializedParams) error {
	if !s.can.watch {
		return nil
	}
	options, err := protocol.Marshal(protocol.DidChangeWatchedFilesRegistrationOptions{
		Watchers: []protocol.FileSystemWatcher{{GlobPattern: protocol.Pattern("**/" + house.FileName)}},
	})
	if err != nil {
		return err
	}
	ctx = context.WithoutCancel(ctx)
	go func() {
		// An editor that refuses still tells what is saved in it.
		_ = s.client.RegisterCapability(ctx, &protocol.RegistrationParams{Registrations: []protocol.Registration{
			{ID: "house-rules", Method: protocol.MethodWorkspaceDidChangeWatchedFiles, RegisterOptions: options},
		}})
	}()
	return nil
}

// Shutdown says that exit is all that will come.
func (s *Server) Shutdown(context.Context) error {
	s.lock.Lock()
	defer s.lock.Unlock()
	s.phase = shut
	return nil
}

// Exit ends the server.
func (s *Server) Exit(context.Context) error {
	s.exit()
	return nil
}
