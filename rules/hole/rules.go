package hole

import "cutgate/internal/rule"

// Rules are the topic's rules, in the order of the form: what is spaced, then
// where it lies, then what goes through.
//
// Left out:
//   - hole/bore-loose: 40 mm eyelets on a 25 mm pole, well over the published 30
//     to 40 percent, are sold and hang well; a limit would be a false alarm.
//   - hole/pitch-wide: what is wide enough to sag hangs on the cloth, and a count
//     that is wrong shows as a spacing that is.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		countOff,
		spacingOff,
		insetOff,
		oddCount,
		onJoin,
		nearSide,
		nearEdge,
		offHem,
		flangeUnderBore,
		boreTight,
		gripShort,
		slitOff,
		unbacked,
	}
}
