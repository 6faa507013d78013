package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var otherWord = &rule.Rule{
	ID:    "form/other-word",
	Title: "another workroom's word",
	Level: finding.Note,
	Fix:   rule.Always,
	Run:   runOtherWord,
	Doc: `
Checks
Whether names and words are the ones this form uses: fiber, selvedge, grommet,
curtain, flat felled; an iron in dots, a date as 2026-12-18.

Because
Other workrooms, and the other side of the ocean, have other words for the same
thing. Yours was understood; but with one word for one thing, two orders can be
compared.

Working
Other workrooms' words are listed with the word this form uses. Capitals, hyphens
and plurals don't matter. An iron may be given by its dial, low, medium or high, by a
bare number of dots, or by the fiber it is set for. A date written
another way is read where it can only be one day, or where the order's market says which
part is the month; one that could be either of two days is asked about.

Source
common practice, no source; ISO 3758 for dots, from memory
`,
}

func runOtherWord(p *rule.Pass) {
	for _, f := range flaws(p, order.OtherWord) {
		out := finding.Finding{At: f.At, Stated: f.Text, Corrected: f.Nearest}
		edit := p.Set
		switch {
		case f.InKey:
			out.Message = fmt.Sprintf("%s was read as `%s`, the word this form uses.", field(f), f.Nearest)
			edit = p.SetKey
		case strings.HasPrefix(f.Wanted, "a date"):
			out.Message = fmt.Sprintf("Write dates as year-month-day: %s was read as %s.", quote(f.Text), f.Nearest)
		case strings.HasPrefix(f.Wanted, "dots or a temperature") && f.Nearest != "none":
			out.Message = fmt.Sprintf("Write the iron in dots or as a temperature: %s was read as %s.", quote(f.Text), f.Nearest)
		case f.Text == f.Nearest:
			out.Message = fmt.Sprintf("Write %s without quote marks.", f.Nearest)
		default:
			out.Message = fmt.Sprintf("%s was read as “%s”, the word this form uses.", quote(f.Text), f.Nearest)
		}
		if p.Editable(f.Node) {
			out.Fixes = []finding.Fix{{
				Title: "Write " + f.Nearest, Sureness: finding.Certain, Edits: []finding.Edit{edit(f.Node, f.Nearest)},
			}}
		}
		p.Report(out)
	}
}
