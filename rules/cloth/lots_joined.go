package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var lotsJoined = &rule.Rule{
	ID:    "cloth/lots-joined",
	Title: "item needs two dye lots",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runLotsJoined,
	Doc: `
Checks
Each item's cuts against the bolts of each dye lot. A bolt with no lot stated may be of
any.

Because
Two lots of one color differ, and side by side in one curtain everybody sees it.

Working
The cuts for one of an item have to fit on the bolts of one lot. Several of it may each come
from another: the ticket and cutgate lay say from which. How several items share the lots
is not checked.

Correction
Shown: order enough of one lot, or ask the client to see both side by side.

Source
common practice, no source
`,
}

func runLotsJoined(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		if c.Stock == nil {
			continue
		}
		for _, item := range c.Stock.Mixed {
			o := p.Sheet.Items[item].Order
			p.Report(finding.Finding{
				At:      clothPlace(o, c.Name),
				Message: fmt.Sprintf("No single dye lot of %s holds all the cuts of this %s: they would come from two lots.", c.Name, o.Kind.Value),
				Source:  worksheet.Common,
				Related: lotPlaces(c),
				Fixes:   finding.Advice("Get enough of one lot before cutting"),
			})
		}
	}
}

// clothPlace is where an item says that it is made of the cloth.
func clothPlace(o *order.Item, cloth string) source.Range {
	switch cloth {
	case o.Cloth.Value:
		return o.Cloth.At
	case o.Lining.Cloth.Value:
		return o.Lining.Cloth.At
	}
	return o.Interlining.Cloth.At
}

// lotPlaces are the lots of a cloth's bolts.
func lotPlaces(c *worksheet.Cloth) (list []finding.Related) {
	for i := range c.Order.Bolts {
		if lot := &c.Order.Bolts[i].Lot; lot.Set {
			list = append(list, finding.Related{Range: lot.At, Message: "lot " + lot.Value})
		}
	}
	return list
}
