package table

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const (
	lapLength = "Tablecloth maker, 'How to calculate cloth size'; Singer table chapter, 'Measuring the table': 10 to 12 in, or 28 to 29 in to the floor"
	ofPoints  = "Riegel Linen, 'Round tables using square cloths'"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return append(rule.Guards(guards), joinOnEdge, clothWasted) }

var (
	cloths = []string{"tablecloth"}
	small  = []string{"runner", "placemat", "napkin"}
)

var guards = []rule.Guard{
	{
		ID: "table/drop-over-height", Title: "tablecloth hangs lower than the table is high", Level: finding.Error, Kinds: cloths,
		When: "height, {drop} > {height}", At: []string{"drop", "table.height"},
		Message: "The cloth hangs down {drop} on a table {height} high: it lies on the floor and gets stepped on. Make the drop less than {height}.",
		Checks:  "The drop of a tablecloth against the height of its table.",
		Because: "A cloth on the floor gets stepped on, and pulls down what is on the table.",
		Source:  lapLength,
	},
	{
		ID: "table/drop-into-lap", Title: "tablecloth hangs into people's laps", Level: finding.Warning, Kinds: cloths,
		When: "seated, height, {drop} > {lap limit}, {drop} < {height} × 4 ÷ 5", At: []string{"drop"},
		Message: "The cloth hangs down {drop} where people sit: over {lap limit} it lies in their laps, unless it goes to the floor.",
		Checks:  "The drop of a tablecloth that people sit at, against the longest that stays out of their laps.",
		Because: "Cloth in the lap gets sat on and pulled.",
		Source:  lapLength,
	},
	{
		ID: "table/hardly-so-high", Title: "table is higher than tables are", Level: finding.Warning, Kinds: cloths,
		When: "height, {height} > {tallest table}", At: []string{"table.height"},
		Message: "A table {height} high is higher than people stand at: check the number and its unit.",
		Checks:  "The height of the table.",
		Because: "The drop, and how far the cloth ends above the floor, are checked against it.",
		Source:  worksheet.Common,
	},
	{
		ID: "table/point-trails", Title: "corners of a tablecloth reach the floor", Level: finding.Warning, Kinds: cloths,
		When: "height, point drop, {drop} ≤ {height}, {point drop} > {height} - {point clear}", At: []string{"drop", "drop_ends"},
		Message: "At the corners the cloth hangs down {point drop} on a table {height} high: round the corners off, or use a shorter drop.",
		Checks:  "How far the corners of a rectangular or square cloth hang down, against the height of the table.",
		Because: "A corner that trails gets stepped on, even though the sides clear the floor.",
		Source:  ofPoints,
	},
	{
		ID: "table/join-down-middle", Title: "join runs down the middle of the table", Level: finding.Warning, Kinds: cloths,
		When: "layout: equal, {joins} = 1", At: []string{"join.layout"},
		Message: "Two equal pieces put the join down the middle of the table, where it shows and glasses stand on it: use a center and two sides.",
		Checks:  "Where the only join of a tablecloth lies.",
		Because: "A join down the middle is the first thing seen, and nothing stands straight on it. A full width goes in the middle and part of one on each side.",
		Source:  "Alternative Windows, 'Throwover bedspread'; Quirico Sewing Tutorial, 'How to make a bedspread': never down the middle",
		Put:     "center and sides", Fix: "Cut a center and two sides",
	},
	{
		ID: "table/curve-hem-deep", Title: "hem too deep for a round or oval cloth", Level: finding.Warning, Kinds: cloths,
		When: "shape: round/oval, edge turn, {edge turn} > {curve turn}", At: []string{"hem.turn"},
		Message: "A hem turned {edge turn} puckers on a curve: turn no more than {curve turn}, or bind the edge.",
		Checks:  "The depth of the hem of a round or oval tablecloth.",
		Because: "The raw edge of a curve is longer than the line it is sewn to, and in a deep hem the extra has nowhere to go.",
		Source:  "published hems of round cloths, 1/2 in; " + worksheet.Common,
		Put:     "{curve turn}", Fix: "Turn the hem {curve turn}", Likely: "Turn the hem as deep as a curve allows",
	},
	{
		ID: "table/oval-unsaid", Title: "kind of oval not stated", Level: finding.Error, Kinds: cloths,
		When: "shape: oval, no oval", At: []string{"shape"},
		Message: "Write which oval it is: a racetrack has half-round ends and straight sides, an ellipse is one curve all round; they are cut differently.",
		Checks:  "Whether an oval tablecloth says which of the two ovals it is.",
		Because: "On one table the two differ by inches at the corners.",
		Source:  "Tablecloth maker, 'How to calculate cloth size'",
	},
	{
		ID: "table/square-unlike", Title: "square cloth on a table that is not square", Level: finding.Warning, Kinds: cloths,
		When: "table longer by, {table longer by} > {square within}", At: []string{"shape", "table.length"},
		Message: "The cloth is square, {finished width} each way, but its table is {table width} by {table length}: is the shape rectangular, or is one side of the table wrong?",
		Checks:  "Whether the table of a square cloth is square.",
		Because: "A square cloth on a longer table hangs down as it should at two sides only, and may not reach the other two.",
		Source:  worksheet.Common,
	},
	{
		ID: "table/nothing-for-selvedge", Title: "piece takes the cloth from selvedge to selvedge", Level: finding.Warning, Kinds: cloths,
		When: "layout: one piece, face selvedge, {piece cut width} > {face width} - 2 × {face selvedge}, {piece cut width} ≤ {face width}", At: []string{"drop"},
		Message: "The piece is cut {piece cut width} wide from a cloth {face width} wide: that includes the selvedges, and leaves nothing to square it up with. Use a wider cloth, or a smaller drop or hem.",
		Checks:  "Whether a tablecloth in one piece fits between the selvedges.",
		Because: "Selvedges are woven tighter and draw up in the wash, and a cut edge has to be squared.",
		Source:  worksheet.Common,
	},
	{
		ID: "table/hem-eats-piece", Title: "hems of a small piece nearly meet", Level: finding.Error, Kinds: small,
		When: "made: hemmed, 4 × {edge turn} > {finished width}", At: []string{"hem.turn", "finished.width"},
		Message: "The hems are {edge turn} deep on both sides of a piece {finished width} wide, so they nearly meet: make them shallower.",
		Checks:  "How deep the hems of a runner, placemat or napkin are, against its width.",
		Because: "Hems that nearly meet can't be turned, and the corners are too thick to sew.",
		Source:  geometry,
	},
	{
		ID: "table/border-meets", Title: "borders of a small piece meet", Level: finding.Error, Kinds: small,
		When: "made: bordered, border, 2 × {border} ≥ {finished width}", At: []string{"border.width", "finished.width"},
		Message: "Two borders of {border} fill a piece {finished width} wide and leave no middle: make the borders narrower.",
		Checks:  "The width of a border against the piece it goes round.",
		Because: "There is no middle left to sew the border to.",
		Source:  "Sew4Home, 'How to make a mitered corner'; geometry",
	},
	{
		ID: "table/gap-scant", Title: "gap is too small to turn the piece through", Level: finding.Note, Kinds: small,
		When: "made: lined, {gap} < {least gap}", At: []string{"gap"},
		Message: "A gap of {gap} is too small to turn the piece through: leave {least gap} or more.",
		Checks:  "The gap left open to turn a lined piece right side out.",
		Because: "Cloth forced through a small gap creases and splits the seam.",
		Source:  "Sew Create Live, 'Simple placemat'",
	},
	{
		ID: "table/runner-short", Title: "runner is shorter than its table", Level: finding.Warning, Kinds: []string{"runner"},
		When: "table length, {finished length} < {table length}", At: []string{"finished.length", "table.length"},
		Message: "The runner is {finished length} long and the table {table length}: it ends on the table. Make it {table length} or longer.",
		Checks:  "The length of a runner against that of its table.",
		Because: "A runner hangs over both ends; one that ends short looks like a mistake.",
		Source:  "Engineer Fix, 'How far should a table runner hang'",
	},
	{
		ID: "table/runner-wide", Title: "runner is wide for its table", Level: finding.Note, Kinds: []string{"runner"},
		When: "table width, {finished width} > {table width} ÷ 2", At: []string{"finished.width", "table.width"},
		Message: "The runner is {finished width} wide on a table {table width} wide: a quarter to a third of the table is usual.",
		Checks:  "The width of a runner against that of its table.",
		Because: "Over half the table's width it looks like a tablecloth that is too small.",
		Source:  "As the Curtain Hangs, 'Bed scarf'; collected runner pages: a quarter to a third",
	},
}

const geometry = "plain arithmetic"
