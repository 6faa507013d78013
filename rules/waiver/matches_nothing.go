package waiver

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var matchesNothing = &rule.Rule{
	ID:    "waiver/matches-nothing",
	Title: "waiver matches nothing",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runMatchesNothing,
	Doc: `
Checks
Whether a waiver that holds waives anything.

Because
It may be left over from an order this one was copied from, or be on the wrong
item. If it stays, it will hide the next mistake of its kind, which nobody has
agreed to.

Working
A waiver on an item covers that item's findings, one on the order covers the whole
order's. Findings about waivers can't be waived. While part of the order can't be
read this is not checked, since more may be found once it can.

Source
common practice, no source
`,
}

func runMatchesNothing(p *rule.Pass) {
	if slices.ContainsFunc(p.Order.Flaws, func(f order.Flaw) bool { return f.Kind != order.OtherWord }) {
		return
	}
	for _, u := range readable(p) {
		if !u.Holds() || u.Matched > 0 {
			continue
		}
		finds, reach := "finds", "order"
		if !u.OneRule() {
			finds = "find"
		}
		if u.Of != nil {
			reach = "item"
		}
		f := finding.Finding{
			At:      u.Rule.At,
			Message: fmt.Sprintf("On this %s %s %s nothing to waive: take the waiver out, or it will hide the next mistake.", reach, called(u), finds),
		}
		if rule.Names(topic, u.Rule.Value) {
			f.Message = "Findings about waivers can't be waived: take this one out."
		}
		p.Report(f)
	}
}
