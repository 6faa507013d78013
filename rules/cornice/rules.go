package cornice

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const (
	proportion = "Merrick & Day, Curtain Design Directory p. 129: a sixth to a fifth, in a low room an eighth"
	asRun      = "Cornice boards, standard specifications: plain cloth is run sideways, printed cloth is matched at seams"
	common     = worksheet.Common
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return rule.Guards(guards) }

var kinds = []string{"cornice"}

var guards = []rule.Guard{
	{
		ID: "cornice/wrap-scant", Title: "cloth hardly goes round the board", Level: finding.Error, Kinds: kinds,
		When: "{wrap} < {wrap least}", At: []string{"wrap"},
		Message: "{wrap} round each edge leaves nothing to staple behind: {usual wrap} is usual, {wrap least} the least.",
		Checks:  "What a cornice's cover has to go round the edges of the board.",
		Because: "The cover is pulled tight and stapled on the back. Cloth that ends at the edge can't be held.",
		Source:  "published cornice pages: 2 to 3 in at each edge",
		Put:     "{usual wrap}", Fix: "Leave {usual wrap} round each edge",
	},
	{
		ID: "cornice/narrow-for-trim", Title: "cornice does not go over the window's frame", Level: finding.Error, Kinds: kinds,
		When: "trim width, {inside} < {trim width}", At: []string{"board.width", "trim.width"},
		Message: "The box is {inside} wide inside, and the window with its frame {trim width}: it does not go over it.",
		Checks:  "The inside of a cornice's box against the width of the window with its frame.",
		Because: "The box hangs over the frame. One that is narrower can't be put up.",
		Source:  "Workroom Tech, 'Basic cornice board construction', 2019: 2 1/2 in over the trim outside",
	},
	{
		ID: "cornice/mean", Title: "cornice is shallow for the curtain beneath", Level: finding.Note, Kinds: kinds,
		When: "curtain length, {height} < {low room}", At: []string{"board.height", "curtain_length"},
		Message: "A cornice {height} high is little over a curtain of {curtain length}: a sixth to a fifth is usual, {depth least} to {depth most}.",
		Checks:  "The height of a cornice against the curtain beneath it.",
		Because: "Under an eighth of the drop it looks mean.",
		Source:  proportion,
	},
	{
		ID: "cornice/over-deep", Title: "cornice is deep for the curtain beneath", Level: finding.Note, Kinds: kinds,
		When: "curtain length, {height} > {depth most} + {wrap least}", At: []string{"board.height", "curtain_length"},
		Message: "A cornice {height} high takes the light over a curtain of {curtain length}: a sixth to a fifth is usual, {depth least} to {depth most}.",
		Checks:  "The height of a cornice against the curtain beneath it.",
		Because: "Well over a fifth of the drop it takes the light, and the curtain looks cut off.",
		Source:  proportion,
	},
	{
		ID: "cornice/too-high-to-run", Title: "cornice is too high to run its cloth along it", Level: finding.Error, Kinds: kinds,
		When: "run: along, {cover height} > {face washed width}", At: []string{"run"},
		Message: "The cover is {cover height} high, and the cloth {face washed width} wide: it can't be turned. Run it across, and join it.",
		Checks:  "The height of a cornice's cover against the width of a cloth that is run along it.",
		Because: "Turned, the cloth's width goes up the face; the cover has to come out of it.",
		Source:  worksheet.Common,
		Put:     "across", Fix: "Run the cloth across",
	},
	{
		ID: "cornice/pile-on-its-side", Title: "pile of a cornice's cloth lies on its side", Level: finding.Warning, Kinds: kinds,
		When: "run: along, nap: one way", At: []string{"run"},
		Message: "The cloth's nap runs one way, and the cloth is turned: its pile lies sideways, and it looks another color than the curtains.",
		Checks:  "Whether a cloth with a nap is run along a cornice.",
		Because: "A pile that lies sideways takes the light otherwise than one that lies up or down.",
		Source:  common,
		Put:     "across", Fix: "Run the cloth across",
	},
	{
		ID: "cornice/print-on-its-side", Title: "pattern of a cornice's cloth may lie on its side", Level: finding.Note, Kinds: kinds,
		When: "run: along, face repeat, no nap", At: []string{"run"},
		Message: "The cloth has a pattern, and is turned: see that the pattern may lie on its side.",
		Checks:  "Whether a cloth with a pattern is run along a cornice.",
		Because: "A motif that has a top and a foot lies on its side when the cloth is turned.",
		Source:  asRun,
		Put:     "across", Fix: "Run the cloth across",
	},
	{
		ID: "cornice/join-in-middle", Title: "join stands in the middle of a cornice", Level: finding.Warning, Kinds: kinds,
		When: "layout: equal, {joins} = 1", At: []string{"join.layout"},
		Message: "Two equal pieces put the join in the middle of the cornice, at eye height. A full width goes in the middle, and a part of one to each side.",
		Checks:  "Where the only join of a cornice's cover lies.",
		Because: "The middle is what is looked at, and the cover is pulled tight over a flat board: a join shows.",
		Source:  asRun + "; " + common,
		Put:     "center and sides", Fix: "Cut a center and two sides",
	},
}
