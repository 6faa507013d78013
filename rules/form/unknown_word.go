package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var unknownWord = &rule.Rule{
	ID:    "form/unknown-word",
	Title: "word that a field does not take",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runUnknownWord,
	Doc: `
Checks
Whether a field that takes one of a few words has one of them: the seam, the
heading, the kind of item, the units.

Because
A word that is not understood is not worked from: the usual seam, or none, would
be taken in its place.

Working
The form lists the words of each such field. A word a letter or two off is taken
for a near miss.

Correction
The nearest word, where there is one; it is a choice, so it is only made on
request.

Source
common practice, no source
`,
}

// fewWords is how many words a message lists beside a near miss.
const fewWords = 6

func runUnknownWord(p *rule.Pass) {
	for _, f := range flaws(p, order.UnknownWord) {
		out := finding.Finding{At: f.At, Stated: f.Text, Corrected: f.Nearest}
		switch words := strings.Join(f.Words, ", "); {
		case len(f.Words) == 0:
			out.Message = fmt.Sprintf("%s does not take this word; %s.", field(f), says(f))
		case f.Nearest == "":
			out.Message = fmt.Sprintf("%s is one of %s; %s.", field(f), words, says(f))
		case len(f.Words) > fewWords:
			out.Message = fmt.Sprintf("%s can't be %s: did you mean %s?", field(f), quote(f.Text), f.Nearest)
		default:
			out.Message = fmt.Sprintf("%s is one of %s; %s: did you mean %s?", field(f), words, says(f), f.Nearest)
		}
		if f.Nearest != "" && p.Editable(f.Node) {
			out.Fixes = []finding.Fix{{
				Title: "Write " + f.Nearest, Sureness: finding.Likely, Edits: []finding.Edit{p.Set(f.Node, f.Nearest)},
			}}
		}
		p.Report(out)
	}
}
