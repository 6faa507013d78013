package editor

import (
	"cmp"
	"context"
	"cutgate/internal/fill"
	"slices"
	"strings"

	"github.com/aymanbagabas/go-udiff"
	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/source"
)

// kindFill is the kind of action that writes in what is worked out.
const kindFill = protocol.CodeActionKindSource + ".fillIn"

// actionKinds lists the kinds of action offered.
var actionKinds = []protocol.CodeActionKind{protocol.CodeActionKindQuickFix, protocol.CodeActionKindSourceFixAll, kindFill}

// CodeAction offers the fixes of what was found in a range, and what can be done to
// the whole text.
func (s *Server) CodeAction(ctx context.Context, params *protocol.CodeActionParams) ([]protocol.CommandOrCodeAction, error) {
	p := s.snapshot(params.TextDocument.URI)
	letGo(ctx)
	if p == nil || !s.can.actions {
		return nil, nil
	}
	var list []protocol.CommandOrCodeAction
	wanted := func(kind protocol.CodeActionKind) bool { return wants(params.Context.Only, kind) }
	if wanted(protocol.CodeActionKindQuickFix) {
		for _, a := range s.fixes(p, rangeIn(p.places, params.Range)) {
			list = append(list, a)
		}
	}
	for _, whole := range [...]struct {
		kind  protocol.CodeActionKind
		title string
		how   lint.Correcting
		any   func(*lint.Result) bool
	}{
		{protocol.CodeActionKindSourceFixAll, "Make every certain correction", lint.Correcting{}, correctable},
		{kindFill, "Fill in what is worked out", lint.Correcting{Fill: true}, fillable},
	} {
		if !wanted(whole.kind) || ctx.Err() != nil {
			continue
		}
		results, title := p.check(), whole.title
		if !slices.ContainsFunc(results, func(r lint.Result) bool { return r.Err == nil && whole.any(&r) }) {
			continue
		}
		if whole.how.Fill && slices.ContainsFunc(results, func(r lint.Result) bool { return correctable(&r) }) {
			title = "Make every certain correction and fill in what is worked out" // from wrong values nothing is
		}
		// What can't be corrected as a whole still has its single fixes.
		if edits, err := p.correct(whole.how); err == nil && len(edits) > 0 {
			list = append(list, &protocol.CodeAction{Title: title, Kind: &whole.kind, Edit: s.edit(p, edits)})
		}
	}
	return list, ctx.Err()
}

// wants reports whether an action of a kind is asked for: each kind has those
// below it.
func wants(only []protocol.CodeActionKind, kind protocol.CodeActionKind) bool {
	return len(only) == 0 || slices.ContainsFunc(only, func(o protocol.CodeActionKind) bool {
		return o == "" || o == kind || strings.HasPrefix(string(kind), string(o)+".")
	})
}

// fixes are the fixes of what was found in a range, those that are certain first.
func (s *Server) fixes(p *snapshot, at source.Range) (list []*protocol.CodeAction) {
	kind := protocol.CodeActionKindQuickFix
	results := p.check()
	for i := range results {
		for j := range results[i].Findings {
			f := &results[i].Findings[j]
			if !touches(f.At, at) {
				continue
			}
			for _, x := range f.Fixes {
				if len(x.Edits) == 0 || x.Sureness == finding.Shown {
					continue
				}
				a := &protocol.CodeAction{
					Title: harmless(x.Title), Kind: &kind, Diagnostics: []protocol.Diagnostic{s.diagnostic(p, f)}, Edit: s.edit(p, x.Edits),
				}
				if certain := x.Sureness == finding.Certain; certain {
					a.IsPreferred = &certain
				} else {
					a.Title = "Perhaps: " + a.Title
				}
				list = append(list, a)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b *protocol.CodeAction) int { return preference(a) - preference(b) })
	return list
}

func preference(a *protocol.CodeAction) int {
	if a.IsPreferred != nil {
		return 0
	}
	return 1
}

// correctable reports whether something in an order can be corrected for certain.
func correctable(r *lint.Result) bool {
	return slices.ContainsFunc(r.Findings, func(f finding.Finding) bool {
		return slices.ContainsFunc(f.Fixes, func(x finding.Fix) bool { return x.Sureness == finding.Certain && len(x.Edits) > 0 })
	})
}

// fillable reports whether an order leaves something blank that was worked out.
func fillable(r *lint.Result) bool { return r.Sheet != nil && len(fill.Blanks(r.Sheet)) > 0 }

// correct returns the edits that correct the text.
func (p *snapshot) correct(how lint.Correcting) ([]finding.Edit, error) {
	done, err := p.checker.Correct(&source.File{Name: p.file.Name, Text: p.file.Text}, p.format, how)
	if err != nil {
		return nil, err
	}
	return editsBetween(p.file.Text, done.File.Text), nil
}

// editsBetween returns edits that make one text of another. Those within a few
// letters of each other on one line are one, and what replaces a part of a word
// replaces the word, so that a number changes as a whole.
func editsBetween(was, now string) (list []finding.Edit) {
	const near = 8
	done := 0 // the end of the last edit
	for _, u := range udiff.Strings(was, now) {
		e := finding.Edit{Range: source.Range{Start: u.Start, End: u.End}, Text: u.New}
		for e.Len() > 0 && e.Start > done && inWord(was[e.Start-1]) && inWord(was[e.Start]) {
			e.Start--
			e.Text = was[e.Start:e.Start+1] + e.Text
		}
		if n := len(list); n > 0 {
			last := &list[n-1]
			if gap := was[last.End:e.Start]; len(gap) < near && !strings.Contains(gap, "\n") {
				last.End, done = e.End, e.End
				last.Text += gap + e.Text
				continue
			}
		}
		list, done = append(list, e), e.End
	}
	return list
}

// inWord reports whether a byte is of a word or a number, not between two.
func inWord(c byte) bool { return c > ' ' && strings.IndexByte(",:{}[]\"'#", c) < 0 }

// edit is edits of a version of a document, as the editor makes them.
func (s *Server) edit(p *snapshot, edits []finding.Edit) *protocol.WorkspaceEdit {
	list := textEdits(p, edits)
	if !s.can.versioned {
		return &protocol.WorkspaceEdit{Changes: map[uri.URI][]protocol.TextEdit{p.uri: list}}
	}
	change := &protocol.TextDocumentEdit{TextDocument: protocol.OptionalVersionedTextDocumentIdentifier{Version: &p.version}}
	change.TextDocument.URI = p.uri
	for i := range list {
		change.Edits = append(change.Edits, &list[i])
	}
	return &protocol.WorkspaceEdit{DocumentChanges: []protocol.DocumentChange{change}}
}

// textEdits are edits by their place.
func textEdits(p *snapshot, edits []finding.Edit) []protocol.TextEdit {
	edits = slices.SortedStableFunc(slices.Values(edits), func(a, b finding.Edit) int { return cmp.Compare(a.Start, b.Start) })
	list := make([]protocol.TextEdit, len(edits))
	for i, e := range edits {
		list[i] = protocol.TextEdit{Range: rangeOf(p.places, e.Range), NewText: e.Text}
	}
	return list
}
