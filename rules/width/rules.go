package width

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// Rules are the topic's rules: the whole hanging first, then its pieces.
//
// A join down the middle is a fault on shades, table and bed goods only: their own
// topics speak of it.
func Rules() []*rule.Rule {
	return append([]*rule.Rule{
		finishedWidthOff,
		flatWidthOff,
		widthsOff,
		liningWidthsOff,
		nearlyAWidth,
		panelsOff,
		cutWidthOff,
		countOff,
		listedTwice,
		stripNarrow,
		stripSlight,
		panelLostInSeams,
		widerThanCloth,
	}, rule.Guards(guards)...)
}

var curtains = []string{"curtain"}

// guards are the rules that only compare.
var guards = []rule.Guard{
	{
		ID: "width/band-over-length", Title: "band is as long as the whole curtain", Level: finding.Error, Kinds: []string{"shower curtain", "curtain"},
		When: "band depth, {band depth} ≥ {finished length}", At: []string{"band.depth", "finished.length"},
		Message: "A band {band depth} deep leaves nothing of a curtain {finished length} long: check both.",
		Checks:  "The depth of a band along the foot against the finished length.",
		Because: "The band takes the place of the face's foot: nothing is left to sew it to.",
		Source:  "plain arithmetic",
	},
	{
		ID: "width/joined-though-turned", Title: "widths stated for turned cloth", Level: finding.Warning, Kinds: curtains,
		When: "run: along, run stated, {widths stated} > 0", At: []string{"widths"},
		Message: "The cloth is turned, so each panel is cut in one piece and no widths are joined, but the order states {widths stated}: leave that number out, or run the cloth across.",
		Checks:  "Whether the order states a number of widths for a curtain whose cloth is turned.",
		Because: "Either the cloth is turned, and no widths are joined, or it runs down the curtain, and they are. The cuts differ.",
		Source:  "plain arithmetic",
	},
	{
		ID: "width/pile-on-its-side", Title: "pile of a curtain's cloth lies sideways", Level: finding.Warning, Kinds: curtains,
		When: "run: along, nap: one way", At: []string{"run"},
		Message: "The cloth's nap runs one way and the cloth is turned: its pile lies sideways, and the curtain looks darker from one side than from the other.",
		Checks:  "Whether a cloth with a nap is turned for a curtain.",
		Because: "A pile lying sideways catches the light differently from one lying up or down.",
		Source:  worksheet.Common,
		Put:     "across", Fix: "Run the cloth across",
	},
	{
		ID: "width/print-on-its-side", Title: "pattern of a curtain's cloth may lie sideways", Level: finding.Note, Kinds: curtains,
		When: "run: along, face repeat, no nap", At: []string{"run"},
		Message: "The cloth has a pattern and is turned: make sure the pattern can lie sideways.",
		Checks:  "Whether a cloth with a pattern is turned for a curtain.",
		Because: "A motif with a top and a bottom lies sideways when the cloth is turned, unless it was printed to be turned.",
		Source:  worksheet.Common,
	},
}
