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
Whether names and words are the form's own: fiber, selvedge, grommet, curtain,
flat felled.

Because
Another workroom, or the other side of the ocean, has another word for the same
thing. It was understood; with one word for one thing, two orders can be laid
side by side.

Working
A list of other workrooms' words, each with the form's own. Capitals, hyphens
and the plural don't matter.

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
			out.Message = fmt.Sprintf("This form's word for %s is `%s`; it was taken for that.", field(f), f.Nearest)
			edit = p.SetKey
		case f.Text == f.Nearest:
			out.Message = fmt.Sprintf("On this form %s is written without quote marks.", f.Nearest)
		default:
			out.Message = fmt.Sprintf("This form's word for %s is “%s”; it was taken for that.", quote(f.Text), f.Nearest)
		}
		if p.Editable(f.Node) {
			out.Fixes = []finding.Fix{{
				Title: "Write " + f.Nearest, Sureness: finding.Certain, Edits: []finding.Edit{edit(f.Node, f.Nearest)},
			}}
		}
		p.Report(out)
	}
}
