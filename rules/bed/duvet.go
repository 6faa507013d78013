package bed

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var duvets = []string{"duvet cover"}

var duvetGuards = []rule.Guard{
	{
		ID: "bed/cover-under-duvet", Title: "cover is smaller than its duvet", Level: finding.Warning, Kinds: duvets,
		When: "duvet width, duvet length, the larger of ({duvet width} ÷ {finished width}, {duvet length} ÷ {finished length}) > 1, the larger of ({finished width} - {duvet width}, {finished length} - {duvet length}) ≤ 4 × {slack most}", At: []string{"finished.width", "finished.length", "duvet.width"},
		Message: "The cover finishes at {finished width} by {finished length}, but the duvet is {duvet width} by {duvet length}: make the cover at least that large, or the duvet bunches up in it.",
		Checks:  "The finished size of a duvet cover against the duvet as measured.",
		Because: "A duvet in too small a cover lies in folds and does not keep warm.",
		Source:  "Videojug, 'How to make a duvet cover': 5 cm over; Wons, 'UK bedding sizes': covers are sold at the size of the duvet",
	},
	{
		ID: "bed/cover-slack", Title: "cover is much larger than its duvet", Level: finding.Note, Kinds: duvets,
		When: "duvet width, duvet length, the larger of ({finished width} - {duvet width}, {finished length} - {duvet length}) > {slack most}, the larger of ({finished width} - {duvet width}, {finished length} - {duvet length}) ≤ 4 × {slack most}", At: []string{"ease", "finished.width", "finished.length", "duvet.width"},
		Message: "The cover finishes at {finished width} by {finished length} for a duvet of {duvet width} by {duvet length}: over {slack most} larger, the duvet slides about in it.",
		Checks:  "How much larger than its duvet the finished cover is.",
		Because: "A duvet that does not fill its cover slips to one end.",
		Source:  "Videojug, 'How to make a duvet cover': 5 cm over",
	},
	{
		ID: "bed/not-its-duvet", Title: "cover and duvet are of different sizes", Level: finding.Warning, Kinds: duvets,
		When: "duvet width, duvet length, the larger of ({finished width} - {duvet width}, {finished length} - {duvet length}) > 4 × {slack most}", At: []string{"ease", "finished.width", "finished.length", "duvet.width"},
		Message: "The cover finishes at {finished width} by {finished length}, and the duvet is {duvet width} by {duvet length}: measure the duvet again.",
		Checks:  "Whether cover and duvet are so far apart that one of them was measured or written wrong.",
		Because: "A cover of another size is of no use for this duvet.",
		Source:  worksheet.Common,
	},
	{
		ID: "bed/opening-small", Title: "duvet cover opening is too small", Level: finding.Warning, Kinds: duvets,
		When: "{finished width} > 3 × {usual closed}, 3 × {opening} < {finished width}", At: []string{"closure.closed"},
		Message: "Sewn shut for {closed} at each side, the foot opens only {opening} of {finished width}, and the duvet will hardly go in: {usual closed} at each side is usual.",
		Checks:  "How much of the foot of a duvet cover opens.",
		Because: "A duvet is folded in through the foot; if less than a third of the width opens, it has to be stuffed in.",
		Source:  worksheet.Common,
	},
	{
		ID: "bed/buttons-far", Title: "buttons or ties are too far apart", Level: finding.Note, Kinds: duvets,
		When: "fastenings, {fastening spacing} > {spacing most}", At: []string{"closure.count", "closure.spacing", "closure.at_most"},
		Message: "The fastenings are {fastening spacing} apart: over {spacing most} the foot gapes between them. Use {fastenings at the most apart}.",
		Checks:  "How far apart the buttons or ties of a duvet cover are.",
		Because: "Between buttons too far apart the foot gapes, and the duvet works its way out.",
		Source:  "Canadian Living, 'Duvet cover': 25.5 to 30.5 cm apart",
	},
	{
		ID: "bed/button-over-hem", Title: "button is too large for its hem", Level: finding.Error, Kinds: duvets,
		When: "closure: buttons, button, {button} × 4 > {opening turn} × 3", At: []string{"closure.button"},
		Message: "A button of {button}, or its hole, runs off a hem {opening turn} deep: turn the hem deeper, or use a smaller button.",
		Checks:  "The diameter of a duvet cover's buttons against the depth of the hem they are sewn to.",
		Because: "A buttonhole is longer than its button and needs cloth on both sides.",
		Source:  "geometry; " + worksheet.Common,
	},
}
