package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var eyeletOnTrack = &rule.Rule{
	ID:    "heading/eyelet-on-track",
	Title: "pole heading on a track",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runEyeletOnTrack,
	Doc: `
Checks
An eyelet, tab or rod pocket heading against the kind of hardware the order states.

Because
These headings go over a pole. A track has gliders for hooks, so the curtain can't be hung
from it, and by the time that shows the holes are punched. Eyelets that hooks go through, as
on the curtain round a hospital bed, hang from a track: state the hook under holes.

Working
none: the heading hangs by holes, by tabs or by a pocket, and the hardware is a track.

Correction
None is made: either the heading or the hardware is wrong.

Source
common practice, no source
`,
}

func runEyeletOnTrack(p *rule.Pass, it *worksheet.Item) {
	kind := &it.Order.Track.Kind
	if it.Heading == nil || kind.Value != "track" || it.Heading.Hangs == "hooks" || it.Heading.Style == "eyelet" && it.Order.Holes.Hook.Set {
		return
	}
	a := "A"
	if it.Heading.Style == "eyelet" {
		a = "An"
	}
	p.Report(finding.Finding{
		At:      kind.At,
		Message: fmt.Sprintf("%s %s heading goes over a pole and can't hang from a track.", a, it.Heading.Style),
		Stated:  kind.Node.Text,
		Source:  worksheet.Common,
		Related: []finding.Related{{Range: it.Order.Heading.Style.At, Message: "the heading"}},
		Fixes:   finding.Advice("Hang it from a pole, or make a heading for hooks"),
	})
}
