package cloth

import "cutgate/internal/rule"

// Rules are the topic's rules: what is bought, then what lies on the shelf.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		orderedShort,
		noRepeatToStart,
		orderedOver,
		cutLeftOver,
		offSellingStep,
		boltShort,
		lotsJoined,
		faulted,
		railroadSaves,
		roleUnnamed,
	}
}
