package form

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var notUsed = &rule.Rule{
	ID:    "form/not-used",
	Title: "number that nothing is worked from",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runNotUsed,
	Doc: `
Checks
Whether a number that the order states goes into anything that is worked out of its
item, where the word that it hangs on is left out: the flange of a pillowcase goes into an
Oxford one only. With the word, a figure too many is passed over.

Because
A figure that nobody reads is lost without a word, and the item is cut in another style than
was meant.

Working
plain reading: no formula of the item as its words have it reads the number, and one of
the same kind with another word does

Source
common practice, no source
`,
}

func runNotUsed(p *rule.Pass, it *worksheet.Item) {
	if !it.Worked || it.Unread || p.Sheet.WordAsked(it.Index) || p.Sheet.Unsettled(it.Index) {
		return
	}
	for _, u := range it.Unused() {
		if u.By.Stated || p.Sheet.Doubted(u.Node) { // with the word, it is of no matter
			continue
		}
		p.Report(finding.Finding{
			At: u.Node.At, Stated: u.Node.Text,
			Message: fmt.Sprintf("Nothing is worked from %s: without %s this %s is %s, not %s. Write which it is.",
				fieldOf(it, u.Field), fieldOf(it, u.By.Field), it.Order.Kind.Value, u.By.Word, worksheet.Any(u.By.Words)),
		})
	}
}
