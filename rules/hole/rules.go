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
		ID: "hole/from-top-unsaid", Title: "eyelets with no distance from the top", Level: finding.Warning, Kinds: []string{"curtain"},
		When: "hangs by: holes, hook level, no finished length stated, no holes from top, no hook drop", At: []string{"holes", "heading.style"},
		Message: "Write how far the centers of the eyelets are from the top edge, `from_top`: the curtain stands above its pole by that, less half the bore, and is worked out that much too short.",
		Checks:  "Whether a curtain with eyelets whose length is worked out from the window says how far its eyelets are from the top.",
		Because: "The top edge stands above the pole. A length that leaves that out is cut short.",
		Source:  "The Mill Shop, How to measure for eyelet curtains, 2024: the drop hangs from the eyelets' bore",
	},
	{
		ID: "hole/eyelets-unsaid", Title: "eyelet heading with no eyelets stated", Level: finding.Note, Kinds: []string{"curtain"},
		When: "hangs by: holes, no hole make, finished length stated", At: []string{"heading.style"},
		Message: "Nothing is stated of the eyelets: write their size under `holes`, and the ticket gives their number and places.",
		Checks:  "Whether a curtain with eyelets says anything of them.",
		Because: "The ticket can't say how many to buy, nor where to punch.",
		Source:  "common practice, no source",
	},
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
