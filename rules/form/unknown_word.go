package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var unknownWord = &rule.Rule{
	ID:    "form/unknown-word",
	Title: "word the field does not take",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runUnknownWord,
	Doc: `
Checks
Whether fields that take one of a few words have one of them: the seam, the
heading, the kind of item, the units.

Because
A word that is not understood can't be used: the usual seam, or none, would be
used instead.

Working
Each such field has its list of words. A word a letter or two off is taken for a
near miss.

Correction
The nearest word, where there is one, is written with --likely.

Source
common practice, no source
`,
}

func runUnknownWord(p *rule.Pass) {
	for _, f := range flaws(p, order.UnknownWord) {
		out := finding.Finding{At: f.At, Stated: f.Text, Corrected: f.Nearest}
		out.Message = fmt.Sprintf("%s can't be %s", begin(field(f)), quote(f.Text))
		switch {
		case f.Nearest != "":
			out.Message += ": did you mean " + f.Nearest + "?"
		case f.Name == "piece":
			out.Message += ": write " + which(p, f) + "."
		case len(f.Words) > 0:
			out.Message += ": write " + oneOf(f.Words)
			if f.Detail != "" {
				out.Message += ", and `" + f.Detail + "` beside it"
			}
			out.Message += "."
		default:
			out.Message += ": write " + f.Wanted + "."
		}
		if f.Nearest != "" && p.Editable(f.Node) {
			out.Fixes = []finding.Fix{{
				Title: "Write " + f.Nearest, Sureness: finding.Likely, Edits: []finding.Edit{p.Set(f.Node, f.Nearest)},
			}}
		}
		p.Report(out)
	}
}
