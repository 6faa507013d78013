package hem

import "cutgate/internal/rule"

// Rules are the topic's rules: what a hem takes, how it is folded and sewn, how
// it hangs.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		allowanceOff,
		turnIsZero,
		foldsIsZero,
		firstOverTurn,
		stitchPastFold,
		stitchOffFold,
		singleFoldSheer,
		cornersThick,
		shallow,
		hangsLight,
		weightsOnVoile,
		liningMissesHem,
	}
}
