package width

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
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
		stripNarrow,
		stripSlight,
		panelLostInSeams,
		widerThanCloth,
	}, rule.Guards(guards)...)
}

// guards are the rules that only compare.
var guards = []rule.Guard{
	{
		ID: "width/band-over-length", Title: "band is as long as the whole curtain", Level: finding.Error, Kinds: []string{"shower curtain", "curtain"},
		When: "band depth, {band depth} ≥ {finished length}", At: []string{"band.depth", "finished.length"},
		Message: "A band {band depth} deep leaves nothing of a curtain {finished length} long.",
		Checks:  "The depth of a band along the foot against the finished length.",
		Because: "The band takes the place of the face's foot: nothing is left to sew it to.",
		Source:  "worked out from the shape; no custom in it",
	},
}
