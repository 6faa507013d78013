package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var formulaWithoutValue = &rule.Rule{
	ID:    "form/formula-without-value",
	Title: "formula with no stored value",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runFormulaWithoutValue,
	Doc: `
Checks
Whether every formula in a field of a workbook has a stored value.

Because
A spreadsheet saves what each formula gives; a workbook made by a program may have
the formulas alone. On the screen the cell looks filled in, but the file holds no value
to check.

Working
Formulas are not worked out. Opening the workbook in a spreadsheet and saving it puts
the values in. One finding for each order names the cells.

Source
common practice, no source; ECMA-376 part 1, 18.3.1.40, cell formulas, from memory
`,
}

func runFormulaWithoutValue(p *rule.Pass) {
	list := flaws(p, order.Valueless)
	if len(list) == 0 {
		return
	}
	f := list[0]
	what, it := "The formula "+formula(f)+" has", "it gives"
	if len(list) > 1 {
		what, it = "The formulas in "+counted(list, p.Order.File)+" have", "they give"
	}
	p.Report(finding.Finding{
		At: f.At, Stated: "=" + f.Detail,
		Message: fmt.Sprintf("%s no stored value in this workbook, so what %s was not checked.", what, it),
		Fixes:   finding.Advice("Open the workbook in a spreadsheet, and save it"),
	})
}
