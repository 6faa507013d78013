package editor

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"go.lsp.dev/protocol"

	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/lint"
	"cutgate/internal/render"
	"cutgate/internal/source"
)

// checkAfter checks the document's present text when nothing has changed it for a
// while. The server is locked.
func (s *Server) checkAfter(d *document, pause time.Duration) {
	if d.timer != nil {
		d.timer.Stop()
	}
	if now := d.now; now.checker != nil {
		d.timer = time.AfterFunc(pause, func() { s.tell(d, now) })
	}
}

// tell checks a text and says what was found, unless there is a newer one.
func (s *Server) tell(d *document, p *snapshot) {
	defer func() {
		if v := recover(); v != nil {
			s.complain(fmt.Sprintf("checking %s crashed: %v", p.file.Name, v))
		}
	}()
	d.checking.Lock()
	defer d.checking.Unlock()
	if !s.isPresent(d, p) {
		return
	}
	results := p.check()
	s.tellFaults(results)
	s.tellDoubts(p.checker)
	params := &protocol.PublishDiagnosticsParams{URI: p.uri, Version: protocol.NewOptional(p.version), Diagnostics: s.diagnose(p)}
	s.telling.Lock()
	defer s.telling.Unlock()
	if s.isPresent(d, p) {
		// An editor that is gone need not know.
		_ = s.client.PublishDiagnostics(context.Background(), params)
	}
}

// isPresent reports whether a text is what the document says now.
func (s *Server) isPresent(d *document, p *snapshot) bool {
	s.lock.Lock()
	defer s.lock.Unlock()
	return s.opened[d.name] == d && d.now == p
}

// diagnose is what is to say of the orders in a text.
func (s *Server) diagnose(p *snapshot) []protocol.Diagnostic {
	list := make([]protocol.Diagnostic, 0, 8)
	for _, res := range p.check() {
		if res.Err != nil {
			list = append(list, s.unchecked(p, &res))
			continue
		}
		for i := range res.Findings {
			list = append(list, s.diagnostic(p, &res.Findings[i]))
		}
	}
	return list
}

// severities are what the levels are to an editor.
var severities = [...]protocol.DiagnosticSeverity{
	finding.Off: protocol.DiagnosticSeverityHint, finding.Note: protocol.DiagnosticSeverityInformation,
	finding.Warning: protocol.DiagnosticSeverityWarning, finding.Error: protocol.DiagnosticSeverityError,
}

// diagnostic is a finding as the editor shows it: what is wrong, and what to
// write instead. How that was worked out is for a hover to say.
func (s *Server) diagnostic(p *snapshot, f *finding.Finding) protocol.Diagnostic {
	text := f.Message
	for _, r := range render.Rows(p.file, f) {
		switch r.Label {
		case render.LabelWrite, render.LabelPerhaps, render.LabelToDo, render.LabelSlip:
			text += "\n" + r.Label + ": " + oneLine(r.Text)
		}
	}
	d := protocol.Diagnostic{
		Range: rangeOf(p.places, f.At), Severity: severities[f.Level], Code: protocol.String(f.Rule),
		Source: protocol.NewOptional(s.Name), Message: protocol.String(harmless(text)),
	}
	for _, r := range f.Related {
		d.RelatedInformation = append(d.RelatedInformation, protocol.DiagnosticRelatedInformation{
			Location: protocol.Location{URI: p.uri, Range: rangeOf(p.places, r.Range)}, Message: harmless(r.Message),
		})
	}
	return d
}

// unchecked says of an order that it was not checked, so that nobody takes it for
// clear to cut.
func (s *Server) unchecked(p *snapshot, res *lint.Result) protocol.Diagnostic {
	text := "This order was not checked: " + res.Err.Error()
	var wrong *house.Error
	if errors.As(res.Err, &wrong) {
		text = "The orders under " + wrong.File + " are not checked until it is fixed.\n" + wrong.Error()
	}
	start := 0
	if res.Order != nil && res.Order.Root != nil {
		start = res.Order.Root.At.Start
	}
	line := p.places.Line(p.places.Position(start).Line)
	return protocol.Diagnostic{
		Range:    rangeOf(p.places, source.Range{Start: start, End: start + len(line)}),
		Severity: protocol.DiagnosticSeverityError, Source: protocol.NewOptional(s.Name), Message: protocol.String(harmless(text)),
	}
}

// oneLine puts one space where there are several.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// harmless makes text that may come from an order fit to be shown, line by line.
func harmless(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = source.Show(l)
	}
	return strings.Join(lines, "\n")
}
