package fabric

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// Rules are the topic's rules: fibers, then sizes, then how a cloth behaves, then
// whether it is used at all.
func Rules() []*rule.Rule {
	return append([]*rule.Rule{
		fibersNotHundred,
		fiberUnknown,
		minorFiberNamed,
		selvedgeOverWidth,
		hardlyWoven,
		repeatOverWidth,
		shrinksLittle,
		shrinksMuch,
		absorbsDamp,
		weightClassUnlike,
		measuredDiffers,
		clothUnused,
	}, rule.Guards(guards)...)
}

// guards are the rules that only compare.
var guards = []rule.Guard{
	{
		ID: "fabric/shrinks-unlike", Title: "two cloths of one panel shrink differently", Level: finding.Warning, Kinds: []string{"shower curtain"},
		When: "shrinks apart, {shrinks apart} > 3 ÷ 100", At: []string{"join.side_cloth"},
		Message: "The sides' cloth and the center's differ by {shrinks apart} in shrinkage: wash both before cutting, or the joins pucker.",
		Checks:  "How differently two cloths joined in one panel shrink.",
		Because: "The one that shrinks more pulls the join up in the first wash.",
		Source:  worksheet.Common,
	},
	{
		ID: "fabric/nap-unlike", Title: "one of two joined cloths has a nap", Level: finding.Note, Kinds: []string{"shower curtain"},
		When: "nap apart", At: []string{"join.side_cloth"},
		Message: "One of the two cloths of this panel has a one-way nap, and the other has none: the shade changes at the joins.",
		Checks:  "Whether both cloths of a joined panel have a nap, or neither.",
		Because: "A nap looks darker one way up. Beside a cloth without one, the join shows as a line.",
		Source:  worksheet.Common,
	},
	{
		ID: "fabric/join-off-repeat", Title: "seam allowance too wide for the pattern to meet", Level: finding.Warning, Kinds: []string{"curtain", "valance", "bed skirt"},
		When: "match seam, {joins} > 0, seam allowance stated, {seam allowance} > {match seam} + {seam slack}", At: []string{"join.allowance"},
		Message: "A seam allowance of {seam allowance} cuts into the pattern: whole repeats leave only {match seam} at each side of the cloth. Join the widths there, so that the pattern meets.",
		Checks:  "The stated seam allowance of widths joined side by side, where the pattern repeats across the cloth, against the match seam: what whole repeats leave at each side of the cloth. A smaller allowance is not checked: the cloth is cut down to it, or joined further in.",
		Because: "A wider seam takes part of the motif, which then steps at every join.",
		Source:  "plain arithmetic",
		Put:     "{match seam}", Fix: "Join the widths with a seam allowance of {match seam}", Likely: "Join the widths where the pattern meets",
	},
}
