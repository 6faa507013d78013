package waiver

import "cutgate/internal/rule"

// Rules are the topic's rules: what a waiver names, why, until when, who signed,
// then whether it does anything.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		unknownRule,
		noReason,
		past,
		safetyUnsigned,
		matchesNothing,
	}
}
