package safety

import "cutgate/internal/rule"

// Rules are the topic's rules: cords, fire, then what a child can swallow.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		cordWithoutMarket,
		cordTooLong,
		loopReachable,
		holdLow,
		cordInNursery,
		fireUncertified,
		nearHeat,
		upholsteredUnlabelled,
		fillingUntested,
		smallPartsInNursery,
		leadInReach,
	}
}
