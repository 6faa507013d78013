package bed

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var spreads = []string{"bedspread"}

var bedspreadGuards = []rule.Guard{
	{
		ID: "bed/tuck-short", Title: "tuck under the pillows is too short", Level: finding.Warning, Kinds: spreads,
		When: "{tuck} > 0, {tuck} < {least tuck}, {tuck} < {usual tuck}", At: []string{"tuck"},
		Message: "Only {tuck} tucks under the pillows: under {least tuck} it pulls out, and {usual tuck} is usual. For a coverlet that does not tuck, write a tuck of 0.",
		Checks:  "How much of a bedspread tucks under the pillows.",
		Because: "The tuck goes under and round the pillows, and has to stay there.",
		Source:  "Interior Images, 'How to measure bedding': 15 in at least; Cia's Palette, 'Standard mattress sizes': 15 in; eHow, 'Make own bedspreads': 12 in",
	},
	{
		ID: "bed/drop-over-height", Title: "bedspread hangs lower than the bed is high", Level: finding.Error, Kinds: spreads,
		When: "bed height, {drop} > {bed height}, {bed height} ≥ {lowest bed}", At: []string{"drop", "bed.height"},
		Message: "The bedspread hangs down {drop} on a bed {bed height} high: it lies on the floor. Make the drop less than {bed height}.",
		Checks:  "The drop of a bedspread against the height of its bed.",
		Because: "A spread that lies on the floor gets stepped on and trips people.",
		Source:  worksheet.Common,
	},
	{
		ID: "bed/hardly-so-low", Title: "bed is lower than beds are", Level: finding.Error, Kinds: spreads,
		When: "bed height, {drop} > {bed height}, {bed height} < {lowest bed}", At: []string{"bed.height"},
		Message: "A bed can hardly be {bed height} high: check the number and its unit.",
		Checks:  "The height of the bed, where its spread hangs lower.",
		Because: "The drop is checked against it, and may be right.",
		Source:  worksheet.Common,
	},
	{
		ID: "bed/corner-trails", Title: "square corners of a bedspread reach the floor", Level: finding.Warning, Kinds: spreads,
		When: "bed height, corners: square, {drop} ≤ {bed height}, {corner drop} > {bed height}", At: []string{"corners"},
		Message: "At the foot the square corners hang down {corner drop} on a bed {bed height} high: round them off.",
		Checks:  "How far the square foot corners of a bedspread hang down, against the height of the bed.",
		Because: "A corner that trails gets stepped on, even though the sides clear the floor.",
		Source:  "Alternative Windows, 'Throwover bedspread': the foot corners are rounded",
		Put:     "rounded", Fix: "Round the corners off",
	},
	{
		ID: "bed/coverlet-short", Title: "coverlet does not cover the mattress", Level: finding.Warning, Kinds: spreads,
		When: "mattress, {drop} < {mattress covered}", At: []string{"drop"},
		Message: "The coverlet hangs down {drop} beside a mattress {mattress} deep: it should hang {below mattress} below the mattress.",
		Checks:  "The drop of a bedspread against the depth of the mattress.",
		Because: "A coverlet that ends on the mattress shows its own edge and whatever is under it.",
		Source:  "Quilters Review, 'How to make a bed quilt the right size': the mattress and 3 in",
	},
	{
		ID: "bed/quilt-over-roll", Title: "quilted cut is longer than the quilter works across", Level: finding.Note, Kinds: spreads,
		When: "quilted, {cut length} > {roll length}", At: []string{"quilted"},
		Message: "A quilted cut of {cut length} is over {roll length}: the quilter will turn the cloth, and the quilting pattern with it.",
		Checks:  "The cut length of a quilted bedspread against the widest that quilters work across.",
		Because: "A quilting machine only reaches so far across; longer cloth is turned, and its pattern with it.",
		Source:  "Interior Images, 'How to measure bedding': over 116 in",
	},
}
