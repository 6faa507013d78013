package hole

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

// Rules are the topic's rules, in the order of the form: what is spaced, then
// where it lies, then what goes through.
//
// Left out:
//   - hole/bore-loose: 40 mm eyelets on a 25 mm pole, well over the published 30
//     to 40 percent, are sold and hang well; a limit would be a false alarm.
//   - hole/pitch-wide: what is wide enough to sag hangs on the cloth, and a count
//     that is wrong shows as a spacing that is.
func Rules() []*rule.Rule {
	return append([]*rule.Rule{
		countOff,
		spacingOff,
		insetOff,
		oddCount,
		overlapping,
		onJoin,
		nearSide,
		nearEdge,
		offHem,
		flangeUnderBore,
		boreTight,
		gripShort,
		slitOff,
		unbacked,
	}, rule.Guards(guards)...)
}

// guards are the rules that only compare.
var guards = []rule.Guard{
	{
		ID: "hole/liner-unlike", Title: "liner's holes do not match the curtain's", Level: finding.Error, Kinds: []string{"shower curtain"},
		When: "liner unlike", At: []string{"liner.holes.count", "liner.holes.spacing"},
		Message: "The liner's holes don't match the curtain's, {holes} at {hole spacing} apart: both hang on the same rings.",
		Checks:  "The number and the spacing of a liner's holes against the curtain's.",
		Because: "Curtain and liner hang on the same rings. Holes that don't match pull both out of line, or some are left over.",
		Source:  "Engineer Fix, shower curtain holes and hooks",
		Put:     "{holes}", Fix: "Give the liner {holes} holes", Likely: "Give the liner as many holes as the curtain",
	},
}
