package cloth

import "cutgate/internal/rule"

// Rules are the topic's rules: what is bought, then what lies on the shelf.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		orderedShort,
		orderedOver,
		cutLeftOver,
		offSellingStep,
		boltShort,
		lotsJoined,
		faulted,
		railroadSaves,
	}
}
