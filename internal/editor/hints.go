package editor

import (
	"cmp"
	"context"
	"cutgate/internal/fill"
	"slices"

	"go.lsp.dev/protocol"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

// InlayHint shows what was worked out for the fields of a range that were left
// blank. One that was left out has no place of its own, and an order leaves out so
// many of them that they would hide what it says.
func (s *Server) InlayHint(ctx context.Context, params *protocol.InlayHintParams) ([]protocol.InlayHint, error) {
	p := s.snapshot(params.TextDocument.URI)
	letGo(ctx)
	if p == nil {
		return nil, nil
	}
	visible := rangeIn(p.places, params.Range)
	var list []protocol.InlayHint
	for _, res := range p.check() {
		if res.Sheet == nil || res.Err != nil {
			continue
		}
		pass := rule.NewPass(res.Sheet)
		for _, b := range fill.Blanks(res.Sheet) {
			if b.Node == nil || !touches(b.Node.At, visible) {
				continue
			}
			about := page{markdown: s.can.markdown}
			about.quantity(res.Sheet, b.Quantity, "blank, worked out as "+value(res.Sheet, b.Quantity))
			padded := true
			list = append(list, protocol.InlayHint{
				Position: positionOf(p.places, b.Node.At.Start), Label: protocol.String(b.Text), Tooltip: about.content(), PaddingLeft: &padded,
				TextEdits: textEdits(p, []finding.Edit{pass.Set(b.Node, b.Text)}),
			})
		}
	}
	slices.SortStableFunc(list, func(a, b protocol.InlayHint) int {
		return cmp.Or(cmp.Compare(a.Position.Line, b.Position.Line), cmp.Compare(a.Position.Character, b.Position.Character))
	})
	return list, ctx.Err()
}
