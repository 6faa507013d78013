package fabric

import "cutgate/internal/rule"

// Rules are the topic's rules: fibers, then sizes, then how a cloth behaves, then
// whether it is used at all.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		fibersNotHundred,
		fiberUnknown,
		minorFiberNamed,
		selvedgeOverWidth,
		repeatOverWidth,
		shrinksMuch,
		absorbsDamp,
		weightClassUnlike,
		measuredDiffers,
		clothUnused,
	}
}
