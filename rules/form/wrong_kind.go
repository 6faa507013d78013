package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var wrongKind = &rule.Rule{
	ID:    "form/wrong-kind",
	Title: "field with another kind of value than it takes",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Run:   runWrongKind,
	Doc: `
Checks
Whether a group of fields, a list, a yes or no and a single value each stand
where the form has one.

Because
A value of another kind can't be taken for what was meant: a hem that says only
“4 in” does not say how often it is folded.

Working
The form says for each field which kind of value it takes.

Correction
One text where a list of texts belongs is made a list of one.

Source
common practice, no source
`,
}

func runWrongKind(p *rule.Pass) {
	for _, f := range flaws(p, order.WrongKind) {
		p.Report(finding.Finding{
			At:      f.At,
			Message: and(fmt.Sprintf("%s should be %s; %s.", begin(field(f)), f.Wanted, says(f)), f.Detail),
			Stated:  f.Text,
			Fixes:   listOfOne(p, f),
		})
	}
}

// listOfOne puts the one text of a list of texts in brackets.
func listOfOne(p *rule.Pass, f *order.Flaw) []finding.Fix {
	n := f.Node
	if f.Wanted != "a list of texts" || !p.Editable(n) || n.Form != order.Scalar && n.Form != order.Number || n.Text == "" {
		return nil
	}
	at := n.At
	if n.Quote != 0 {
		at = source.Range{Start: at.Start - 1, End: at.End + 1}
	} else if strings.ContainsAny(n.Text, ",[]{}:#\n") {
		return nil
	}
	return []finding.Fix{{
		Title: "Make it a list of one", Sureness: finding.Certain,
		Edits: []finding.Edit{{Range: at, Text: "[" + p.Order.File.Text[at.Start:at.End] + "]"}},
	}}
}
