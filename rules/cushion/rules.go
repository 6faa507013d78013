package cushion

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const (
	common   = worksheet.Common
	geometry = "geometry; no custom in it"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return append([]*rule.Rule{zipOff}, rule.Guards(guards)...) }

var cushions = []string{"cushion cover"}

var guards = []rule.Guard{
	{
		ID: "cushion/pad-unsaid", Title: "pad lacks a size that its cover needs", Level: finding.Error, Kinds: cushions,
		When: "pad lacks", At: []string{"style"},
		Message: "The {pad lacks} of the pad is not said: a {style} cover can't be cut without it.",
		Checks:  "Whether a pad whose other sizes are said has the depth that a boxed cover or a mock box is cut by, or the length of a bolster.",
		Because: "A part of the cover only is worked out without it, and the cutter would guess the rest.",
		Source:  geometry,
	},
	{
		ID: "cushion/piping-unsaid", Title: "piped cover whose piping has no size", Level: finding.Warning, Kinds: cushions,
		When: "style: piped, piping run, no strip across, no bought piping", At: []string{"style"},
		Message: "The cover is piped, {piping run} round, and neither the cord nor the strip has a size: say one of them, or the length to buy.",
		Checks:  "Whether a piped cover says how thick its cord or how wide its strip is, or how much is bought ready made.",
		Because: "Without either no piping is cut, and it is missed when the cover is sewn.",
		Source:  common,
	},
	{
		ID: "cushion/overlap-small", Title: "backs of a cushion lap little", Level: finding.Warning, Kinds: cushions,
		When: "front along, {overlap} < {overlap least}", At: []string{"closure.overlap", "closure.kind"},
		Message: "The backs lap {overlap}: under {overlap least} they gape over a full pad.",
		Checks:  "How far the two backs of a cushion lap, piece over piece.",
		Because: "A pad pushes the backs apart in the middle, and shows.",
		Source:  "Ideal Home, 'Square envelope cushion', and eight further pages: 3 to 10 in, 8 to 20 cm; The Spruce Crafts: 3 in",
		Put:     "{usual overlap}", Fix: "Let them lap {usual overlap}",
	},
	{
		ID: "cushion/opening-unworked", Title: "closure that is not worked out for the style", Level: finding.Warning, Kinds: cushions,
		When: "unlapped", At: []string{"closure.kind"},
		Message: "How a {style} cover closes with {unlapped} is not worked out: it is cut as if it were sewn shut. Add the opening by hand, or take a zip.",
		Checks:  "Whether the cover's closure is one that is worked out for its style: two backs lap on a flat cover, a boxed one and a bolster have a zip.",
		Because: "The order would be clear to cut, and the pad would not go in.",
		Source:  common,
	},
	{
		ID: "cushion/zip-strip-scant", Title: "zip strips have nothing to show", Level: finding.Error, Kinds: cushions,
		When: "zip strip depth, {zip strip depth} ≤ {strip seam} + {allowance}", At: []string{"pad.depth"},
		Message: "A zip strip of {zip strip depth} is all seams: {strip seam} at the zip and {allowance} at the edge. Take less at the zip, or put it in a seam.",
		Checks:  "The depth of the strips on both sides of the zip, against the seams that they are sewn in.",
		Because: "Nothing is left between the zip and the edge of the cushion.",
		Source:  geometry,
	},
	{
		ID: "cushion/nap-on-boxing", Title: "nap runs round the boxing", Level: finding.Warning, Kinds: cushions,
		When: "style: boxed, nap: one way, boxing run: along", At: []string{"boxing.run"},
		Message: "The cloth has a nap, and the boxing is cut along it: the nap runs round the band, not down it, and shades. Cut the boxing across.",
		Checks:  "Which way the nap runs on the boxing of a cushion.",
		Because: "A band whose nap runs sideways looks like another color beside the plate.",
		Source:  common,
	},
	{
		ID: "cushion/around-unlike-diameter", Title: "bolster measures more round than its diameter gives", Level: finding.Warning, Kinds: cushions,
		When: "pad around, {pad around} > {pad diameter} × π + {around slack}", At: []string{"pad.around"},
		Message: "The bolster is {pad around} round, and {pad diameter} across, which is {pad diameter} × 3.14 round: both can't be measured on one roll. Measure it again.",
		Checks:  "What a bolster measures round, against its diameter.",
		Because: "A soft roll that lies flat is wider than it is high; the tube is cut by the round, and the ends by the diameter.",
		Source:  "City Home Country Home, 'Neck roll cover': 28 in round and a radius of 4 in",
	},
}
