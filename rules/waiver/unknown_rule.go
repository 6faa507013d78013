package waiver

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var unknownRule = &rule.Rule{
	ID:    "waiver/unknown-rule",
	Title: "waiver names no rule",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runUnknownRule,
	Doc: `
Checks
Whether a waiver names a rule, such as hole/odd-count, or a topic, such as hole.

Because
Whoever wrote it thinks something is settled when it is not: a waiver of a misspelt
rule waives nothing.

Working
The name is compared with the rules and the topics, letter by letter. One without its
topic, or a few letters off, is taken for a near miss.

Correction
The nearest name, where there is one, is written with --likely.

Source
common practice, no source
`,
}

func runUnknownRule(p *rule.Pass) {
	for _, u := range readable(p) {
		if !u.Unknown {
			continue
		}
		hint := ": cutgate rules lists them."
		if u.Nearest != "" {
			hint = ": did you mean " + u.Nearest + "?"
		}
		f := finding.Finding{
			At: u.Rule.At, Stated: u.Rule.Value, Corrected: u.Nearest,
			Message: fmt.Sprintf("No rule or topic is called “%s”, so nothing is waived%s", source.Show(u.Rule.Value), hint),
		}
		if u.Nearest != "" {
			f.Fixes = p.Likely(u.Rule.Node, u.Nearest, "Write "+u.Nearest)
		}
		p.Report(f)
	}
}
