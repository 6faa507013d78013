package shade

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const (
	sections = "Sew Helpful, 'Roman blind step 2'"
	columns  = "Simple Sewing Projects, 'How far apart should I space my lift cords'"
	inner    = "PFWBS, 'New Roman shade standard': the US voluntary standard, an older edition; a check of the design, not the law"
	boards   = "Adventures of an Overactive Mind, 'Roman shades: measuring and cutting'; Busy Geemaw, 'Roman shades'"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return rule.Guards(guards) }

var shades = []string{"Roman shade"}

var guards = []rule.Guard{
	{
		ID: "shade/sections-even", Title: "shade has an even number of sections", Level: finding.Error, Kinds: shades,
		When: "sections stated, number of sections: even", At: []string{"sections"},
		Message: "A shade folds into an odd number of sections: with {sections}, the rods miss the folds.",
		Checks:  "Whether the number of sections of a Roman shade is odd.",
		Because: "A section is half the space between two rods. One hangs below the lowest rod and one folds below the headrail, with two to each space between rods: always an odd number.",
		Source:  sections,
		Put:     "{one section more}", Fix: "Make it {one section more} sections", Likely: "Make it one section more",
	},
	{
		ID: "shade/headrail-scant", Title: "too little stays flat at the top of a shade", Level: finding.Warning, Kinds: shades,
		When: "{headrail} < {least headrail}", At: []string{"headrail"},
		Message: "Only {headrail} at the top stays flat: leave {least headrail} or more, or the top fold catches under the board.",
		Checks:  "How much of the top of a Roman shade never folds.",
		Because: "Rings, eyes and cord lock take up the top; a fold that reaches them jams.",
		Source:  sections,
	},
	{
		ID: "shade/wide-for-recess", Title: "shade is too wide for its recess", Level: finding.Error, Kinds: shades,
		When: "width in recess, {finished width} > {width in recess}, {recess} ≥ {narrowest recess}", At: []string{"finished.width"},
		Message: "The shade is {finished width} wide in a recess of {recess}: finish it {width in recess} wide, to hang clear.",
		Checks:  "The finished width of a Roman shade mounted inside its recess, against the recess.",
		Because: "A shade as wide as its recess scrapes and catches on the sides; no recess is quite square.",
		Source:  "Engineer Fix, 'How to make your own Roman shades': narrower than the narrowest of three widths",
	},
	{
		ID: "shade/recess-hardly-so-narrow", Title: "recess is narrower than windows are", Level: finding.Error, Kinds: shades,
		When: "width in recess, {finished width} > {width in recess}, {recess} < {narrowest recess}", At: []string{"recess.width"},
		Message: "A recess can hardly be {recess} wide: check the number and its unit.",
		Checks:  "The width of the recess that a Roman shade is mounted in, where the shade is wider.",
		Because: "The shade is checked against it, and may be right.",
		Source:  worksheet.Common,
	},
	{
		ID: "shade/narrow-for-recess", Title: "shade leaves much of its recess open", Level: finding.Warning, Kinds: shades,
		When: "width in recess, {quantity} × {finished width} < {width in recess} - {recess slack}", At: []string{"finished.width", "recess.width"},
		Message: "The shade is {finished width} wide in a recess of {recess}: one that fills it is {width in recess} wide. Measure both again.",
		Checks:  "The finished width of Roman shades mounted inside their recess, all that are alike side by side, against the recess.",
		Because: "A shade far narrower than its recess was likely measured for another, and leaves the window bare at its sides.",
		Source:  worksheet.Common,
	},
	{
		ID: "shade/rings-far-apart", Title: "rods of a corded shade are too far apart", Level: finding.Warning, Kinds: shades,
		When: "cord, cords by US custom, {space between rods} > {ring limit}", At: []string{"sections", "section"},
		Message: "The rods are {space between rods} apart: over {ring limit} the cord between two rings can be pulled out into a loop. More sections bring them closer.",
		Checks:  "The space between two rods of a Roman shade with a cord, against the longest stretch of inner cord allowed between rings. Checked where no market is stated, and for the US and Canada.",
		Because: "A cord free between two rings makes a loop that a child's head can go through.",
		Source:  inner,
	},
	{
		ID: "shade/cord-near-edge", Title: "cords of a shade run near its edge", Level: finding.Warning, Kinds: shades,
		When: "cord, cords by US custom, {ring edge} < {edge limit}", At: []string{"columns.edge"},
		Message: "The outer cords run {ring edge} from the side: keep them at least {edge limit} from it, where they are harder to reach.",
		Checks:  "How far in from the sides the outer cords of a Roman shade run. Checked where no market is stated, and for the US and Canada.",
		Because: "A cord near the edge can be reached from the side, without lifting the shade.",
		Source:  inner,
	},
	{
		ID: "shade/columns-close", Title: "columns of rings are hardly apart", Level: finding.Warning, Kinds: shades,
		When: "column spacing stated, {column spacing stated} < {columns least}", At: []string{"columns.spacing"},
		Message: "Columns of rings {column spacing stated} apart are closer than anyone sews them: check the number and its unit.",
		Checks:  "The spacing stated for the columns of rings of a Roman shade, against one that could be meant.",
		Because: "How many rings and cords are needed is worked out from it.",
		Source:  worksheet.Common,
	},
	{
		ID: "shade/columns-far-apart", Title: "columns of rings are too far apart", Level: finding.Warning, Kinds: shades,
		When: "columns, {column spacing} > {columns most}", At: []string{"columns.count", "columns.spacing", "columns.at_most"},
		Message: "The columns of rings are {column spacing} apart: over {columns most} the foot sags between the cords. Use {columns at the most apart} columns.",
		Checks:  "How far apart the columns of rings of a Roman shade are.",
		Because: "Each cord lifts the foot at one place; between two too far apart, soft cloth sags.",
		Source:  columns,
	},
	{
		ID: "shade/join-down-middle", Title: "join runs down the middle of a shade", Level: finding.Warning, Kinds: shades,
		When: "layout: equal, {joins} = 1", At: []string{"join.layout"},
		Message: "Two equal pieces put the join down the middle of the shade, where the light shows it: use a center and two sides.",
		Checks:  "Where the only join of a Roman shade lies.",
		Because: "Light behind a shade shows a join as a dark line: at the sides it frames the window, in the middle it splits it.",
		Source:  "Flat Roman shade chapter, complete photo guide: one full width in the middle, and equal strips at the sides",
		Put:     "center and sides", Fix: "Cut a center and two sides",
	},
	{
		ID: "shade/lining-shows", Title: "shade lining is as wide as the shade", Level: finding.Error, Kinds: shades,
		When: "lining across, {lining inset} = 0", At: []string{"lining.inset"},
		Message: "The lining is as wide as the shade and will peep out at the sides: set it in by {usual inset}.",
		Checks:  "How far the lining of a Roman shade is set in from its sides.",
		Because: "A lining as wide as the face rolls out past the side hems as soon as the cloth gives.",
		Source:  "Frugalful, 'How to make your own Roman blinds'",
	},
	{
		ID: "shade/wrap-short", Title: "too little cloth over the board", Level: finding.Error, Kinds: shades,
		When: "board depth, {top wrap} < {board depth}", At: []string{"top_wrap", "board.depth"},
		Message: "The board is {board depth} deep, but only {top wrap} of cloth goes over it: leave {wrap for the board}, to have something to staple.",
		Checks:  "The cloth that goes over the board at the top of a Roman shade, against the depth of the board.",
		Because: "The shade hangs by the cloth stapled to the top of the board.",
		Source:  boards,
	},
}
