package bed

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pillows = []string{"pillowcase"}

var pillowGuards = []rule.Guard{
	{
		ID: "bed/flap-short", Title: "pillowcase pocket is too short", Level: finding.Warning, Kinds: pillows,
		When: "style: housewife, {flap} < {flap least}", At: []string{"flap"},
		Message: "A pocket of {flap} lets the pillow work its way out: {usual flap} is usual, {flap least} the least.",
		Checks:  "How deep the pocket of a housewife case is.",
		Because: "Only the pocket holds the pillow in.",
		Source:  "Raori, 'Easy pillow case', and Instructables, 'Pillowcase, 3 different styles': 20 cm",
		Put:     "{usual flap}", Fix: "Make the pocket {usual flap}", Likely: "Make the pocket as deep as is usual",
	},
	{
		ID: "bed/flap-over-case", Title: "pocket is longer than its pillowcase", Level: finding.Error, Kinds: pillows,
		When: "style: housewife, {flap} > {finished length}", At: []string{"flap"},
		Message: "The pocket is {flap} deep in a case only {finished length} long: {usual flap} is usual.",
		Checks:  "The pocket of a housewife case against the length of the case.",
		Because: "The pocket would not fit inside the case.",
		Source:  "plain arithmetic",
	},
	{
		ID: "bed/case-tight", Title: "pillowcase is narrower than its pillow", Level: finding.Warning, Kinds: pillows,
		When: "pillow width, {finished width} < {pillow width}", At: []string{"finished.width"},
		Message: "The case is {finished width} wide and the pillow {pillow width}: the pillow is squeezed, and the seams strain. Make the case {pillow width} wide or a little more.",
		Checks:  "The width of a pillowcase against its pillow's.",
		Because: "A pillow is measured flat and is plumper than that; cases are made as wide, or an inch wider.",
		Source:  "collected pillowcase pages: the pillow and 1 in",
	},
	{
		ID: "bed/case-short", Title: "pillowcase is shorter than its pillow", Level: finding.Warning, Kinds: pillows,
		When: "pillow length, {finished length} < {pillow length}", At: []string{"finished.length"},
		Message: "The case is {finished length} long and the pillow {pillow length}: the pillow won't go in. Make the case {pillow length} long or a little more.",
		Checks:  "The length of a pillowcase against its pillow's.",
		Because: "The pillow sticks out at the open end, or is squeezed.",
		Source:  worksheet.Common,
	},
	{
		ID: "bed/flange-over", Title: "flange of a pillowcase is wide", Level: finding.Note, Kinds: pillows,
		When: "style: Oxford/one strip, {flange} > {flange most}", At: []string{"flange"},
		Message: "A flange of {flange} flops unless it is interfaced: 2 to {flange most} is usual.",
		Checks:  "The width of the flange of an Oxford case or a sham.",
		Because: "Nothing but its seam holds it up.",
		Source:  "DIY Home Decor, 'Flanged pillow sham': 2 in; Instructables, 'Pillowcase, 3 different styles': 5 cm",
	},
	{
		ID: "bed/overlap-small", Title: "sham backs overlap too little", Level: finding.Warning, Kinds: pillows,
		When: "style: Oxford/one strip, {overlap} < {overlap least}", At: []string{"closure.overlap", "style"},
		Message: "The backs overlap by {overlap}: under {overlap least} they gape over a full pillow.",
		Checks:  "How far the backs of a sham overlap.",
		Because: "The pillow pushes them apart in the middle and shows.",
		Source:  "eHow, 'Standard pillow sham size': 3 in; collected sham pages: 3 to 10 in",
		Put:     "{usual overlap}", Fix: "Overlap them by {usual overlap}", Likely: "Overlap them by what is usual",
	},
	{
		ID: "bed/cuff-over", Title: "cuff is more than half of its pillowcase", Level: finding.Warning, Kinds: pillows,
		When: "style: cuffed, {cuff shows} > {finished length} ÷ 2", At: []string{"cuff.shows"},
		Message: "The cuff shows {cuff shows} on a case {finished length} long, more cuff than case: correct whichever is wrong.",
		Checks:  "How much of a pillowcase is cuff.",
		Because: "A cuff is seldom that deep: one of the two figures is probably wrong.",
		Source:  worksheet.Common,
	},
}
