package form

import (
	"fmt"

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
curtain, flat felled.

Because
Other workrooms, and the other side of the ocean, have other words for the same
thing. Yours was understood; but with one word for one thing, two orders can be
compared.

Working
Other workrooms' words are listed with the word this form uses. Capitals, hyphens
and plurals don't matter.

Source
common practice, no source
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
