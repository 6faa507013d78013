package seam

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pipingUnlike = rule.Guard{
	ID: "seam/piping-unlike", Title: "piping's seam does not match its cover's", Level: finding.Warning, Kinds: []string{"cushion cover"},
	When: "strip across, piping seam stated, {piping seam} ≠ {allowance}", At: []string{"piping.allowance"},
	Message: "The piping has a seam of {piping seam} and the cover one of {allowance}: make them the same, so that the edges meet.",
	Checks:  "The seam allowance of a piping strip against that of the cover it is sewn into.",
	Because: "The edges are laid together and sewn in one seam; where the allowances differ, the piping wanders.",
	Source:  worksheet.Common,
	Put:     "{allowance}", Fix: "Give the piping a seam of {allowance}", Likely: "Give the piping the cover's seam",
}
