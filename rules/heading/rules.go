package heading

import "cutgate/internal/rule"

// Rules are the topic's rules, in the order of the form: the fullness, then what
// takes it up.
func Rules() []*rule.Rule {
	return []*rule.Rule{
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
	}
}
