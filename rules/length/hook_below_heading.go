package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var hookBelowHeading = &rule.Rule{
	ID:    "length/hook-below-heading",
	Title: "hook drop is more than the heading's depth",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runHookBelowHeading,
	Doc: `
Checks
How far below the top edge the hooks bear, against the depth of the heading: its tape,
or the cloth allowed for it if that is more.

Because
A hook sits in the tape or in the turned top. Any lower it has nothing to hold on to,
and the curtain comes out too long or too short by as much as the number is wrong.

Working
hook drop ≤ tape, or the heading's allowance where that is more. Without a tape
only sewn pleats are checked, and without an allowance only tapes at the top edge: a
gathered heading may have its tape below a frill.

Source
common practice, no source
`,
}

func runHookBelowHeading(p *rule.Pass, it *worksheet.Item) {
	h := &it.Order.Heading
	if it.Unread || it.Heading == nil || it.Heading.Hangs != "hooks" || !h.HookDrop.Set {
		return
	}
	deep, depth := headingDepth(it)
	if depth == nil || h.HookDrop.Value <= depth.Value {
		return
	}
	p.Report(finding.Finding{
		At: h.HookDrop.At,
		Message: fmt.Sprintf("The hooks bear %s below the top edge, but the heading's %s is only %s: there is nothing to hold them.",
			p.Show(h.HookDrop.Value), deep, p.Show(depth.Value)),
		Stated:  h.HookDrop.Node.Text,
		Source:  worksheet.Common,
		Related: []finding.Related{{Range: depth.At, Message: "the heading's " + deep}},
		Fixes:   finding.Advice("Measure from the top edge of the heading to where the hook bears"),
	})
}

// headingDepth is what says how deep a heading is, and its name; nil where
// nothing does.
func headingDepth(it *worksheet.Item) (name string, depth *order.Length) {
	h := &it.Order.Heading
	gathered := h.Style.Value == "gathered"
	switch {
	case h.Allowance.Set && h.Tape.Set && h.Allowance.Value >= h.Tape.Value:
		return "allowance", &h.Allowance
	case h.Tape.Set && !gathered:
		return "tape", &h.Tape
	case h.Allowance.Set && !h.Tape.Set && it.Heading.Pleats:
		return "allowance", &h.Allowance
	}
	return "", nil
}
