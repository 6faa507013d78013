package safety

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var smallPartsInNursery = &rule.Rule{
	ID:    "safety/small-parts-in-nursery",
	Title: "small parts in a nursery",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runSmallPartsInNursery,
	Doc: `
Checks
Whether anything for a nursery has grommets, weights, rings, buttons or snaps.

Because
A child under three pulls at whatever hangs and puts it in the mouth. A part that comes
off and is small enough to swallow can choke the child.

Working
The order's use is nursery, and the item has grommets, chain or single weights, a
tie-back's rings, or tie-backs made with it, which have two each, or closes with buttons or
snaps, as a duvet cover does where its closure is not stated. Lead tape is worse and has its
own rule, safety/lead-in-reach.

Correction
None is made. A test and the market's rules decide whether a part holds.

Source
16 CFR 1501.2 and 1501.4, for what a small part is; that it applies to furnishings
is common practice, no source
`,
}

func runSmallPartsInNursery(p *rule.Pass) {
	for _, it := range nursery(p) {
		if it.Holes.Make.Value == "grommet" {
			smallPart(p, it.Holes.Make.At, "grommets", "Sew buttonholes instead")
		}
		switch it.Weights.Kind.Value {
		case "chain":
			smallPart(p, it.Weights.Kind.At, "a weight chain", "Sew a deeper hem instead")
		case "single":
			smallPart(p, it.Weights.Kind.At, "weights", "Sew a deeper hem instead")
		}
		switch it.Closure.Kind.Value {
		case "buttons", "snaps":
			smallPart(p, it.Closure.Kind.At, it.Closure.Kind.Value, "Close it with a zip or a tape instead")
		}
		if it.Kind.Value == "duvet cover" && !it.Closure.Kind.Set && !it.Zip.Length.Set { // it is buttoned, as is usual
			smallPart(p, it.Kind.At, "buttons", "Close it with a zip or a tape instead")
		}
		if it.Kind.Value == "tie-back" && (it.Rings.Value > 0 || !it.Rings.Set) {
			at := it.Rings.At
			if !it.Rings.Set { // it has two, as is usual
				at = it.Kind.At
			}
			smallPart(p, at, "rings", "Sew loops of cloth instead")
		}
		if it.TieBacks.Count.Value > 0 { // each has two, as is usual
			smallPart(p, it.TieBacks.Key, "rings on its tie-backs", "Sew loops of cloth instead")
		}
	}
}

func smallPart(p *rule.Pass, at source.Range, what, instead string) {
	p.Report(finding.Finding{
		At:      at,
		Message: fmt.Sprintf("This is for a nursery and has %s, which can come off and choke a child. Can it be made without?", what),
		Source:  "16 CFR 1501.2 and 1501.4, small parts",
		Fixes:   finding.Advice(instead),
	})
}
