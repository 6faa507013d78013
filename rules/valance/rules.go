package valance

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const (
	boardBoxes = "Beyond the Screen Door, 'Board mounted box pleated valance', 2013"
	proportion = "Merrick & Day, Curtain Design Directory p. 129: a sixth to a fifth, in a low room an eighth"
	howMeasure = "'How to measure: valances' (blinds shop): 2 in more than what it goes over"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return append(rule.Guards(guards), joinOnFace) }

var kinds = []string{"valance"}

var guards = []rule.Guard{
	{
		ID: "valance/corner-fold-deep", Title: "corner pleat is deeper than the return", Level: finding.Error, Kinds: kinds,
		When: "pleats, pleat ends: corners, return stated, {fold} > {return}", At: []string{"heading.fold", "heading.take_up", "board.return"},
		Message: "A corner pleat folds back {fold} behind a return of {return} and hits the wall: fold it {return}, or set the outer pleats in from the corners.",
		Checks:  "The depth of the corner pleats of a box pleated valance, against the return.",
		Because: "Half of a corner pleat lies behind the return. If it is deeper than the return, it meets the wall and pushes the corner out.",
		Source:  boardBoxes + ": an end pleat takes twice the depth of the board",
		Put:     "{return}", Fix: "Fold the pleats {return}", Likely: "Fold the pleats as deep as the return",
	},
	{
		ID: "valance/folds-overlap", Title: "pleats overlap behind the face", Level: finding.Error, Kinds: kinds,
		When: "pleats, {pleats} ≥ 2, 2 × {fold} > {pleat spacing}", At: []string{"heading.fold", "heading.take_up", "heading.sections", "heading.pleats", "heading.spacing"},
		Message: "Pleats {pleat spacing} apart, folded {fold} to each side, overlap behind the face: make fewer, or fold them no deeper than half the space between them.",
		Checks:  "The folds behind two neighboring box pleats against the space between the pleats.",
		Because: "Where folds overlap, the top has seven layers or more: it can't be stapled flat, and the pleats don't open evenly.",
		Source:  "J. W. Stephenson, Cutting and Draping, 1905: pleats as wide as the spaces are the limit; " + worksheet.Common,
	},
	{
		ID: "valance/return-short", Title: "valance does not clear what hangs under it", Level: finding.Warning, Kinds: kinds,
		When: "projection, {return} < {projection}", At: []string{"board.return", "over.projection"},
		Message: "The return is {return}, but what hangs under it stands out {projection}, so the valance rests on it: {return wanted} would clear it.",
		Checks:  "The return of a valance against how far the curtain or shade under it stands out.",
		Because: "A valance resting on the curtain catches it whenever it is drawn, and hangs crooked.",
		Source:  howMeasure,
		Put:     "{return wanted}", Fix: "Give it a return of {return wanted}", Likely: "Give it a return that clears what hangs under it",
	},
	{
		ID: "valance/board-narrow", Title: "board is narrower than the window", Level: finding.Warning, Kinds: kinds,
		When: "window, board, {board} < {window}", At: []string{"board.width", "window.width"},
		Message: "The board is {board} wide and the window {window}, so it ends over the glass: use one that reaches past the window on both sides.",
		Checks:  "The width of a valance's board or rod against the window.",
		Because: "A board that ends over the glass has nothing to be fixed to, and shows light at its ends.",
		Source:  boardBoxes + ": 2 in wider than the window",
	},
	{
		ID: "valance/fullness-low", Title: "valance is not full enough", Level: finding.Warning, Kinds: kinds,
		When: "no pleats, {fullness} < {least fullness}", At: []string{"heading.fullness"},
		Message: "A fullness of {fullness} hangs thin; {usual fullness} is usual.",
		Checks:  "The fullness of a valance that is gathered, or pleated to a fullness, against the least that suits its heading.",
		Because: "A valance is short and at eye level: thin gathers look like a mistake.",
		Source:  "About.com sewing, 'Scallop valance', and Engineer Fix, 'How to make a window valance': 1.5 to 2",
		Put:     "{usual fullness}", Fix: "Use a fullness of {usual fullness}", Likely: "Use the usual fullness",
	},
	{
		ID: "valance/pocket-unsaid", Title: "rod pocket with no size stated", Level: finding.Error, Kinds: kinds,
		When: "style: rod pocket, no pocket height, no heading allowance stated", At: []string{"heading.style"},
		Message: "Write how thick the rod is, or how high its pocket: the cloth above the finished length depends on it.",
		Checks:  "Whether a valance with a rod pocket says how thick the rod is, or how high the pocket.",
		Because: "The pocket is part of the cut length. Cut without it, the valance comes out short or won't go on its rod.",
		Source:  worksheet.Common,
	},
	{
		ID: "valance/out-of-proportion", Title: "valance is shallow for the curtain under it", Level: finding.Note, Kinds: kinds,
		When: "curtain length, {finished length} < {curtain length} ÷ 8", At: []string{"finished.length", "curtain_length"},
		Message: "A valance {finished length} long is shallow over a curtain of {curtain length}: a sixth to a fifth is usual, {depth least} to {depth most}.",
		Checks:  "The length of a valance against that of the curtain beneath it.",
		Because: "Under an eighth of the drop it looks skimpy.",
		Source:  proportion,
	},
	{
		ID: "valance/over-deep", Title: "valance is deep for the curtain under it", Level: finding.Note, Kinds: kinds,
		When: "curtain length, {finished length} > {curtain length} ÷ 3", At: []string{"finished.length", "curtain_length"},
		Message: "A valance {finished length} long is more than a third of a curtain of {curtain length} and blocks the light: a sixth to a fifth is usual, {depth least} to {depth most}.",
		Checks:  "The length of a valance against that of the curtain beneath it.",
		Because: "Over a third of the drop it blocks the light, and the curtain looks cut off.",
		Source:  "Homesteady, 'How to measure for a pleated valance': a third of the window at most; " + proportion,
	},
}
