package cushion

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const (
	geometry = "plain arithmetic"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return append([]*rule.Rule{zipOff}, rule.Guards(guards)...) }

var cushions = []string{"cushion cover"}

var guards = []rule.Guard{
	{
		ID: "cushion/pad-unsaid", Title: "pad size missing", Level: finding.Error, Kinds: cushions,
		When: "pad lacks", At: []string{"style"},
		Message: "Write the {pad lacks} of the pad: a {style} cover can't be cut without it.",
		Checks:  "Whether a pad with its other sizes stated has the depth needed for a boxed or mock box cover.",
		Because: "Without it only part of the cover can be worked out, and the cutter would guess the rest.",
		Source:  geometry,
	},
	{
		ID: "cushion/piping-unsaid", Title: "piped cover with no piping size", Level: finding.Warning, Kinds: cushions,
		When: "style: piped, piping run, no strip across, no bought piping", At: []string{"style"},
		Message: "The cover is piped, {piping run} round, but neither the cord nor the strip has a size: write one of them, or the length to buy.",
		Checks:  "Whether a piped cover says how thick its cord is, how wide its strip is, or how much piping to buy ready made.",
		Because: "Without any of these no piping is cut, and it is missing when the cover is sewn.",
		Source:  worksheet.Common,
	},
	{
		ID: "cushion/motif-unmeasured", Title: "motif to be centered in a cloth with no repeat stated", Level: finding.Warning, Kinds: cushions,
		When: "motif: center, no face motif across", At: []string{"motif"},
		Message: "The motif is to be centered, but the cloth does not say how far apart its motifs are: write its repeat, length and width, or too little cloth may be bought.",
		Checks:  "Whether the cloth of a cushion with a centered motif states its repeat, along and across.",
		Because: "A motif in the middle of each piece costs whole repeats, both ways of the cloth.",
		Source:  "Crescent Upholstery, 'Cutting fabric for cushions', 2017: whole repeats, both ways of the cloth",
	},
	{
		ID: "cushion/overlap-small", Title: "cushion backs overlap too little", Level: finding.Warning, Kinds: cushions,
		When: "front along, {overlap} < {overlap least}", At: []string{"closure.overlap", "closure.kind"},
		Message: "The backs overlap by {overlap}: under {overlap least} they gape over a full pad.",
		Checks:  "How far the two backs of a cushion overlap.",
		Because: "The pad pushes the backs apart in the middle and shows.",
		Source:  "Ideal Home, 'Square envelope cushion', and eight further pages: 3 to 10 in, 8 to 20 cm; The Spruce Crafts: 3 in",
		Put:     "{usual overlap}", Fix: "Overlap them by {usual overlap}", Likely: "Overlap them by what is usual",
	},
	{
		ID: "cushion/opening-unworked", Title: "closure not worked out for this style", Level: finding.Warning, Kinds: cushions,
		When: "unlapped", At: []string{"closure.kind"},
		Message: "A {style} cover closed with {unlapped} is not worked out: it is cut as if sewn shut. Add the opening by hand, or use a zip.",
		Checks:  "Whether the cover's closure can be worked out for its style: overlapping backs on a flat cover, a zip on a boxed cover or a bolster.",
		Because: "The order would be clear to cut, but the pad would not go in.",
		Source:  worksheet.Common,
	},
	{
		ID: "cushion/zip-strip-scant", Title: "zip strips are all seam", Level: finding.Error, Kinds: cushions,
		When: "zip strip depth, {zip strip depth} ≤ {strip seam} + {allowance}", At: []string{"pad.depth"},
		Message: "A zip strip of {zip strip depth} is all seam: {strip seam} at the zip and {allowance} at the edge. Take less at the zip, or put the zip in a seam.",
		Checks:  "The depth of the strips on both sides of the zip, against their seams.",
		Because: "Nothing is left between the zip and the edge of the cushion.",
		Source:  geometry,
	},
	{
		ID: "cushion/nap-on-boxing", Title: "nap runs round the boxing", Level: finding.Warning, Kinds: cushions,
		When: "style: boxed, nap: one way, boxing run: along", At: []string{"boxing.run"},
		Message: "The cloth has a nap, and the boxing is cut along it: the nap runs round the band, not down it, and changes color. Cut the boxing across.",
		Checks:  "Which way the nap runs on the boxing of a cushion.",
		Because: "A band with its nap sideways looks like another color beside the top.",
		Source:  worksheet.Common,
	},
	{
		ID: "cushion/around-unlike-diameter", Title: "bolster measures more round than its diameter allows", Level: finding.Warning, Kinds: cushions,
		When: "pad around, {pad around} > {pad diameter} × π + {around slack}", At: []string{"pad.around"},
		Message: "The bolster is {pad around} round and {pad diameter} across, but a roll measures 3.14 times as much round as across: measure both again.",
		Checks:  "The measurement round a bolster, against its diameter.",
		Because: "A soft roll flattens, so it is wider than it is high; the tube is cut from the measurement round, and the ends from the diameter.",
		Source:  "City Home Country Home, 'Neck roll cover': 28 in round and a radius of 4 in",
	},
}
