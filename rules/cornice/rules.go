package cornice

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const (
	proportion = "Merrick & Day, Curtain Design Directory p. 129: a sixth to a fifth, in a low room an eighth"
	asRun      = "Cornice boards, standard specifications: plain cloth is run sideways, printed cloth is matched at seams"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return rule.Guards(guards) }

var kinds = []string{"cornice"}

var guards = []rule.Guard{
	{
		ID: "cornice/wrap-scant", Title: "too little cloth round the board", Level: finding.Error, Kinds: kinds,
		When: "{wrap} < {wrap least}", At: []string{"wrap"},
		Message: "A wrap of {wrap} round each edge leaves nothing to staple on the back: {usual wrap} is usual, {wrap least} the least.",
		Checks:  "How much of a cornice's cover goes round the edges of the board.",
		Because: "The cover is pulled tight and stapled on the back. Cloth that ends at the edge can't be stapled.",
		Source:  "published cornice pages: 2 to 3 in at each edge",
		Put:     "{usual wrap}", Fix: "Leave {usual wrap} round each edge", Likely: "Leave what is usual round each edge",
	},
	{
		ID: "cornice/narrow-for-trim", Title: "cornice is too narrow for the window's frame", Level: finding.Error, Kinds: kinds,
		When: "trim width, {inside width} < {trim width}", At: []string{"board.width", "trim.width"},
		Message: "The box is {inside width} wide inside, but the window with its frame is {trim width}: the box won't go over it. Make the box wider.",
		Checks:  "The inside of a cornice's box against the width of the window with its frame.",
		Because: "The box goes over the frame. A narrower one can't be put up.",
		Source:  "Workroom Tech, 'Basic cornice board construction', 2019: 2 1/2 in over the trim outside",
	},
	{
		ID: "cornice/mean", Title: "cornice is shallow for the curtain under it", Level: finding.Note, Kinds: kinds,
		When: "curtain length, {height} < {low room}", At: []string{"board.height", "curtain_length"},
		Message: "A cornice {height} high is shallow over a curtain of {curtain length}: a sixth to a fifth is usual, {depth least} to {depth most}.",
		Checks:  "The height of a cornice against the curtain beneath it.",
		Because: "Under an eighth of the drop it looks skimpy.",
		Source:  proportion,
	},
	{
		ID: "cornice/over-deep", Title: "cornice is deep for the curtain under it", Level: finding.Note, Kinds: kinds,
		When: "curtain length, {height} > {curtain length} ÷ 4", At: []string{"board.height", "curtain_length"},
		Message: "A cornice {height} high over a curtain of {curtain length} blocks the light: a sixth to a fifth is usual, {depth least} to {depth most}.",
		Checks:  "The height of a cornice against the curtain beneath it.",
		Because: "Over a quarter of the drop it blocks the light, and the curtain looks cut off.",
		Source:  proportion,
	},
	{
		ID: "cornice/too-high-to-run", Title: "cornice is too high for its cloth turned", Level: finding.Error, Kinds: kinds,
		When: "run: along, {cover height} > {face washed width}", At: []string{"run"},
		Message: "The cover is {cover height} high and the cloth only {face washed width} wide, so it can't be turned: run it across, and join it.",
		Checks:  "The height of a cornice's cover against the width of a cloth run along it.",
		Because: "Turned, the cloth's width runs up the face, so it has to be at least as wide as the cover is high.",
		Source:  worksheet.Common,
		Put:     "across", Fix: "Run the cloth across",
	},
	{
		ID: "cornice/pile-on-its-side", Title: "pile of a cornice's cloth lies sideways", Level: finding.Warning, Kinds: kinds,
		When: "run: along, nap: one way", At: []string{"run"},
		Message: "The cloth's nap runs one way and the cloth is turned: its pile lies sideways and looks a different color from the curtains.",
		Checks:  "Whether a cloth with a nap is run along a cornice.",
		Because: "A pile lying sideways catches the light differently from one lying up or down.",
		Source:  worksheet.Common,
		Put:     "across", Fix: "Run the cloth across",
	},
	{
		ID: "cornice/print-on-its-side", Title: "pattern of a cornice's cloth may lie sideways", Level: finding.Note, Kinds: kinds,
		When: "run: along, face repeat, no nap", At: []string{"run"},
		Message: "The cloth has a pattern and is turned: make sure the pattern can lie sideways.",
		Checks:  "Whether a cloth with a pattern is run along a cornice.",
		Because: "A motif with a top and a bottom lies sideways when the cloth is turned.",
		Source:  asRun,
		Put:     "across", Fix: "Run the cloth across",
	},
	{
		ID: "cornice/join-in-middle", Title: "join in the middle of a cornice", Level: finding.Warning, Kinds: kinds,
		When: "layout: equal, {joins} = 1", At: []string{"join.layout"},
		Message: "Two equal pieces put the join in the middle of the cornice, where it shows most: use a center and two sides.",
		Checks:  "Where the only join of a cornice's cover lies.",
		Because: "The middle is what people look at, and the cover is pulled tight over a flat board, so a join shows. A full width goes in the middle and part of one on each side.",
		Source:  asRun + "; " + worksheet.Common,
		Put:     "center and sides", Fix: "Cut a center and two sides",
	},
}
