package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var exchanged = &rule.Rule{
	ID:    "form/exchanged",
	Title: "two numbers in each other's place",
	Level: finding.Error,
	Fix:   rule.Always,
	Asked: true,
	Run:   runExchanged,
	Doc: `
Checks
Two numbers of one part of the form that make no sense where they stand, and do where
the other stands: a fullness of 25 with 2 1/2 pleats.

Because
Two lines were filled in the wrong way round. Nothing can be worked out from either.

Working
Each of the two is read in the other's place.

Correction
With --likely, the two are swapped.

Source
common practice, no source
`,
}

func runExchanged(p *rule.Pass) {
	list := flaws(p, order.Exchanged)
	for _, f := range list {
		for _, with := range list {
			if with.At != f.Related || with.At.Start < f.At.Start {
				continue
			}
			out := finding.Finding{
				At:        f.At,
				Message:   fmt.Sprintf("%s can't be %s, and %s can't be %s: were the two swapped?", begin(field(f)), clip(f.Text), field(with), clip(with.Text)),
				Stated:    f.Text,
				Corrected: f.Nearest,
				Related:   []finding.Related{{Range: with.At, Message: "it would then be " + clip(with.Nearest)}},
			}
			if p.Editable(f.Node) && p.Editable(with.Node) {
				out.Fixes = []finding.Fix{{
					Title: fmt.Sprintf("Swap %s and %s", field(f), field(with)), Sureness: finding.Likely,
					Edits: []finding.Edit{p.Set(f.Node, f.Nearest), p.Set(with.Node, with.Nearest)},
				}}
			}
			p.Report(out)
		}
	}
}
