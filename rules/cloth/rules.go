package cloth

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

// Rules are the topic's rules: what is bought, then what lies on the shelf.
func Rules() []*rule.Rule {
	return append([]*rule.Rule{
		orderedShort,
		noRepeatToStart,
		orderedOver,
		cutLeftOver,
		offSellingStep,
		boltShort,
		lotsJoined,
		faulted,
		railroadSaves,
		laySaves,
		pieceTurned,
		halvesLeft,
		roleUnnamed,
	}, rule.Guards(guards)...)
}

// guards are the rules that only compare.
var guards = []rule.Guard{
	{
		ID: "cloth/drops-by-turns", Title: "half drop not cut alternately wastes cloth", Level: finding.Note, Kinds: []string{"curtain"},
		When: "by turns, {by turns saves} > 0", At: []string{"cloth"},
		Message: "Cut A and B alternately down the cloth and it takes {by turns saves} less: the waste after one cut is the half repeat the next one starts on.",
		Checks:  "Whether a half-drop cloth whose cuts leave half a repeat or more of waste could be cut A B A B down the bolt.",
		Because: "If all of A is cut and then all of B, each cut takes whole repeats. Cut alternately, each takes half a repeat less, where that much would be waste. Cuts that are stated so are right, and the ticket has them cut A B A B.",
		Source:  "plain arithmetic",
	},
}
