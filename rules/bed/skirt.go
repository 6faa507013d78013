package bed

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var skirts = []string{"bed skirt"}

var skirtGuards = []rule.Guard{
	{
		ID: "bed/deck-misses-spring", Title: "deck is too small for the spring", Level: finding.Warning, Kinds: skirts,
		When: "deck inset, {deck inset} > {inset most}", At: []string{"deck.inset"},
		Message: "The deck ends {deck inset} inside the spring's edge, so the seam lies on top of the spring and shows: {inset most} is the most.",
		Checks:  "How far a bed skirt's deck ends inside the edge of the box spring.",
		Because: "The skirt hangs from the deck's edge. Where that is well inside the spring's edge, the seam and the deck show below the mattress.",
		Source:  "All People Quilt and Sew Passionate: as large as the spring; Simple Sewing Projects, 2006: an inch smaller",
		Put:     "{no inset}", Fix: "Make the deck as large as the spring",
	},
	{
		ID: "bed/clearance-over-height", Title: "bed skirt clears more than the height it hangs from", Level: finding.Error, Kinds: skirts,
		When: "spring height, clearance stated, {clearance stated} ≥ {spring height}", At: []string{"clearance", "bed.height"},
		Message: "A skirt that hangs from {spring height} above the floor can't clear it by {clearance stated}: correct whichever is wrong.",
		Checks:  "The clearance of a bed skirt against the height of the box spring's top.",
		Because: "Nothing is left for the skirt. The two are often written in each other's place.",
		Source:  "plain arithmetic",
	},
	{
		ID: "bed/corner-pleat-shallow", Title: "corner pleat of a bed skirt is too shallow", Level: finding.Warning, Kinds: skirts,
		When: "style: tailored, {pleats} > 0, {pleat} < {pleat least}, {pleat} < {usual pleat}", At: []string{"pleat"},
		Message: "A corner pleat of {pleat} opens at the corner and shows the frame; {pleat least} or more stays closed.",
		Checks:  "The cloth in a corner pleat of a tailored bed skirt.",
		Because: "The skirt bends where the pleat opens, and a shallow pleat gapes.",
		Source:  "eHow, 'How much fabric for a queen tailored bed skirt' (18 in); Creativebug (17 1/2 in); All People Quilt has 6 in",
	},
	{
		ID: "bed/skirt-thin", Title: "bed skirt is not full enough", Level: finding.Warning, Kinds: skirts,
		When: "style: gathered, {fullness made} < 17 ÷ 10", At: []string{"fullness"},
		Message: "The widths make a fullness of only {fullness made}, which hangs thin; 2 is usual.",
		Checks:  "The fullness that a gathered bed skirt's widths make.",
		Because: "Thin gathers over so long a run look like a mistake.",
		Source:  "Art and Home, 'Dust ruffle', 2011: 1.6 looked thin, 2 was wanted",
		Put:     "2", Fix: "Use a fullness of 2",
	},
	{
		ID: "bed/post-unsplit", Title: "bed skirt can't go round the bed's posts", Level: finding.Error, Kinds: skirts,
		When: "posts, corners: continuous, {sides} > 2", At: []string{"corners", "bed.posts"},
		Message: "The bed has posts, and the skirt goes round the corners in one piece: split it at the corners.",
		Checks:  "Whether the skirt of a bed with posts is split at the corners.",
		Because: "A post stands in the corner, and the skirt can't be hung round it.",
		Source:  "Savannah Granny, three-panel skirt; Sew Passionate, 'Box pleat bed skirt', 2012: split corners",
		Put:     "split", Fix: "Split it at the corners",
	},
	{
		ID: "bed/pleats-unsaid", Title: "number of pleats in a bed skirt not stated", Level: finding.Error, Kinds: skirts,
		When: "style: box pleat, no pleats", At: []string{"style"},
		Message: "Write how many pleats there are in all: the flat width can't be worked out without their number.",
		Checks:  "Whether a bed skirt with box pleats all round says how many.",
		Because: "Every pleat takes cloth; without their number nothing can be cut.",
		Source:  worksheet.Common,
	},
	{
		ID: "bed/skirt-side-forgotten", Title: "bed skirt leaves the foot bare", Level: finding.Note, Kinds: skirts,
		When: "{sides} < 3", At: []string{"sides"},
		Message: "The skirt hangs on two sides only: the foot of the bed stays bare.",
		Checks:  "How many sides of the bed the skirt hangs on.",
		Because: "Two sides and the foot are usual; two sides alone leave the spring showing.",
		Source:  "Julie M., 'Bed skirts': three sides",
	},
}
