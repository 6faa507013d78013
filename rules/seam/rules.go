package seam

import "cutgate/internal/rule"

// Rules are the topic's rules: the allowance, what lies in it, how it is sewn.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		selvedgeShows,
		allowanceScant,
		allowanceWide,
		trimOverAllowance,
		trimWide,
		firstRowOff,
		rawEdge,
		wrongSideShows,
		bulky,
		stitchesOff,
		needleOff,
		pipingNarrow,
		pipingUnlike.Rule(),
	}
}
