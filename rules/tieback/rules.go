package tieback

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule { return rule.Guards(guards) }

var bands = []string{"tie-back"}

var guards = []rule.Guard{
	{
		ID: "tieback/one-ring", Title: "tie-back with only one ring", Level: finding.Warning, Kinds: bands,
		When: "{rings} = 1", At: []string{"rings"},
		Message: "A tie-back goes round the curtain and hooks on by both ends: it needs 2 rings, and the order has {rings}.",
		Checks:  "How many rings a tie-back has.",
		Because: "An end without a ring hangs loose.",
		Source:  worksheet.Common,
		Put:     "{rings usual}", Fix: "Sew on 2 rings",
	},
	{
		ID: "tieback/short", Title: "tie-back is too short", Level: finding.Warning, Kinds: bands,
		When: "{finished length} < {length least}", At: []string{"finished.length"},
		Message: "A tie-back {finished length} long won't go round a curtain: measure round the curtain, bunched at the hook.",
		Checks:  "The length of a tie-back against what it takes to go round a light curtain.",
		Because: "Tie-backs are measured round the bunched curtain, not across it.",
		Source:  "collected tie-back pages: 14 to 20 in over light curtains, 30 to 40 in round full ones",
	},
	{
		ID: "tieback/hook-in-middle", Title: "tie-back hook is halfway up the curtain", Level: finding.Note, Kinds: bands,
		When: "hook stated, curtain length, {hook stated} > {curtain length} × 9 ÷ 20, {hook stated} < {curtain length} × 3 ÷ 5", At: []string{"hook", "curtain_length"},
		Message: "The hook is {hook stated} above the foot of a curtain {curtain length} long, about halfway: a third of the way up, or two thirds, looks better.",
		Checks:  "How high the hook of a tie-back is, against the length of its curtain.",
		Because: "Tied in the middle, a curtain looks cut in half. High up, at two thirds, it is a style of its own.",
		Source:  "collected tie-back pages: a third from the floor end; two thirds: " + worksheet.Common,
	},
	{
		ID: "tieback/hook-over-curtain", Title: "tie-back hook is above its curtain", Level: finding.Error, Kinds: bands,
		When: "hook stated, curtain length, {hook stated} ≥ {curtain length}", At: []string{"hook", "curtain_length"},
		Message: "The hook is {hook stated} above the foot of a curtain only {curtain length} long: measure it from the curtain's foot, not from the floor.",
		Checks:  "How high the hook of a tie-back is, against the length of its curtain.",
		Because: "There is no curtain that high for the tie-back to hold. The hook may have been measured from the floor.",
		Source:  "plain arithmetic",
	},
	{
		ID: "tieback/rise-over", Title: "ends of a shaped tie-back rise too high", Level: finding.Note, Kinds: bands,
		When: "shape: shaped, {rise} > 2 × {finished width}", At: []string{"template.rise"},
		Message: "The ends rise {rise} on a band {finished width} wide: they will stand up like horns. Keep the rise to twice the width or less.",
		Checks:  "How far the ends of a shaped tie-back rise above its middle, against its width.",
		Because: "A curve that steep won't lie round the curtain.",
		Source:  "Alternative Windows, 'Simple tieback': ends an inch above and below the width",
	},
	{
		ID: "tieback/seams-meet", Title: "seam allowances meet inside a tie-back", Level: finding.Error, Kinds: bands,
		When: "2 × {allowance} ≥ {finished width}", At: []string{"allowance", "finished.width"},
		Message: "Two seam allowances of {allowance} fill a band {finished width} wide: trim them, or allow less.",
		Checks:  "How much room the seam allowances take inside a narrow band.",
		Because: "The allowances lie over each other, and the band can't be turned out flat.",
		Source:  "plain arithmetic",
	},
}
