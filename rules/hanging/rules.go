package hanging

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// Rules are the topic's rules: what the hanging weighs, what it covers, and where
// its foot is.
func Rules() []*rule.Rule {
	return append([]*rule.Rule{
		overload,
		massOff,
		capacityUnstated,
		narrowerThanRod,
		stackOverWall,
		offFloor,
		aboveRim,
	}, rule.Guards(guards)...)
}

// guards are the rules that only compare.
var guards = []rule.Guard{
	{
		ID: "hanging/liner-above-rim", Title: "liner ends above the tub's rim", Level: finding.Error, Kinds: []string{"shower curtain"},
		When: "liner below rim, {liner below rim} ≤ 0, {liner below rim} + {liner shorter} > 0", At: []string{"liner.shorter", "finished.length"},
		Message: "The liner ends above the rim of the tub, and water runs out over the rim: it has to hang inside.",
		Checks:  "Where the foot of a shower curtain's liner hangs, against the rim of the tub.",
		Because: "Water runs down the liner. The liner has to end inside the tub, or the water runs onto the floor.",
		Source:  worksheet.Common,
	},
	{
		ID: "hanging/weights-uncounted", Title: "number of single weights not stated", Level: finding.Note, Kinds: []string{"curtain"},
		When: "weights kind: single, no weights stated, {weights} > 0", At: []string{"weights.kind"},
		Message: "Write how many weights there are: {weights} would do, one at each bottom corner and each join, and more in light cloth. The hanging mass counts that many.",
		Checks:  "Whether the order says how many single weights go in a curtain's hem.",
		Because: "Weights have to be bought and sewn in, and the rod has to carry them.",
		Source:  "eHow UK, How to use drapery weights; " + worksheet.Common,
	},
}
