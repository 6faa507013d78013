package length

import "cutgate/internal/rule"

// Rules are the topic's rules, in the order of a docket: cuts first.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		cutLengthOff,
		liningCutOff,
		finishedLengthOff,
		dragsOnFloor,
		highOffFloor,
		liningShows,
		hookBelowHeading,
		repeatNearlySaved,
		shrinkageUnstated,
	}
}
