package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var fromFormula = &rule.Rule{
	ID:    "form/from-formula",
	Title: "figure that comes from a formula in the workbook",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runFromFormula,
	Doc: `
Checks
Whether any of the cells read holds a formula.

Because
A workbook keeps the value that a formula had when it was last saved, and that is
the value read here. The formula is not worked out again: if a cell it uses was
changed outside the spreadsheet, the value is out of date. A formula is never
overwritten.

Working
One finding per order names the cells.

Source
common practice, no source
`,
}

func runFromFormula(p *rule.Pass) {
	list := flaws(p, order.FromFormula)
	if len(list) == 0 {
		return
	}
	f := list[0]
	out := finding.Finding{At: f.At, Stated: f.Text}
	if len(list) == 1 {
		out.Message = fmt.Sprintf("%s is what the formula %s gave when the workbook was last saved.", quote(f.Text), formula(f))
	} else {
		out.Message = fmt.Sprintf("%s hold formulas; their values are those from when the workbook was last saved.", counted(list, p.Order.File))
	}
	p.Report(out)
}

// formula is a formula as a message repeats it.
func formula(f *order.Flaw) string { return quote("=" + strings.TrimPrefix(f.Detail, "=")) }

// fewCells is how many cells a message lists.
const fewCells = 6

// counted names the cells of flaws.
func counted(list []*order.Flaw, file *source.File) string {
	var names []string
	for _, f := range list {
		if c, ok := file.Cell(f.At.Start); ok {
			names = append(names, c.String())
		}
	}
	return worksheet.FirstOf(names, fewCells)
}
