package form

import (
	"cmp"
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var duplicateID = &rule.Rule{
	ID:    "form/duplicate-id",
	Title: "two items with the same id",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runDuplicateID,
	Doc: `
Checks
Whether the ids of an order's items differ.

Because
The id goes on the ticket and on the bundle of cut pieces. Where two items share an
id, their pieces get mixed.

Working
Ids are compared letter by letter among items of one kind: a curtain and its tie-back may
both be named after their window. An item without an id is passed over.

Source
common practice, no source
`,
}

func runDuplicateID(p *rule.Pass) {
	type name struct{ kind, id string }
	first := map[name]*order.Item{}
	for i := range p.Order.Items {
		it := &p.Order.Items[i]
		if !it.ID.Set || it.ID.Value == "" {
			continue
		}
		as := name{it.Kind.Value, it.ID.Value}
		if was := first[as]; was != nil {
			p.Report(finding.Finding{
				At:      it.ID.At,
				Message: fmt.Sprintf("Another %s already has the id %s: give each its own.", cmp.Or(it.Kind.Value, "item"), quote(it.ID.Value)),
				Related: []finding.Related{{Range: was.ID.At, Message: "the other one"}},
			})
			continue
		}
		first[as] = it
	}
}
