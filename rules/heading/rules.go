package heading

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// Rules are the topic's rules, in the order of the form: the fullness, then what
// takes it up.
func Rules() []*rule.Rule {
	return append([]*rule.Rule{
		fullnessLow,
		fullnessHigh,
		eyeletOnTrack,
		allowanceShort,
		pleatsOff,
		spacingOff,
		pleatGapWide,
		takeUpOff,
		pocketTight,
		gapOff,
		gapWide,
	}, rule.Guards(guards)...)
}

// guards are the rules that only compare.
var guards = []rule.Guard{
	{
		ID: "heading/pocket-unsaid", Title: "rod pocket with no size stated", Level: finding.Warning, Kinds: []string{"curtain"},
		When: "hangs by: pocket, no pocket made, no heading allowance stated, usual heading allowance", At: []string{"heading.style"},
		Message: "Write how thick the rod is, `diameter` under `track`, or how high its pocket: {heading allowance} of cloth above the finished top was taken, with the header, whatever the rod.",
		Checks:  "Whether a curtain with a rod pocket says how thick its rod is, how high the pocket, or how much cloth there is above the finished top.",
		Because: "Pocket, turn and header are part of the cut length. Cut without them, the curtain comes out short or won't go on its rod.",
		Source:  worksheet.Common,
	},
}
