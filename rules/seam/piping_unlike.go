package seam

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var pipingUnlike = rule.Guard{
	ID: "seam/piping-unlike", Title: "seam of the piping is not that of its cover", Level: finding.Warning, Kinds: []string{"cushion cover"},
	When: "strip across, piping seam stated, {piping seam} ≠ {allowance}", At: []string{"piping.allowance"},
	Message: "The piping has a seam of {piping seam}, and the cover of {allowance}: their edges don't run together.",
	Checks:  "The seam allowance of a piping strip against that of the cover that it is sewn into.",
	Because: "The edges are laid together and sewn in one seam; where they differ the piping wanders.",
	Source:  worksheet.Common,
	Put:     "{allowance}", Fix: "Give the piping a seam of {allowance}",
}
