package hanging

import "cutgate/internal/rule"

// Rules are the topic's rules: what the hanging weighs, what it covers, and where
// its foot is.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		overload,
		massOff,
		capacityUnstated,
		narrowerThanRod,
		stackOverWall,
		offFloor,
		aboveRim,
	}
}
