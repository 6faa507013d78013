package press

import (
	"cutgate/internal/worksheet"
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
)

var fusingTooHot = &rule.Rule{
	ID:    "press/fusing-too-hot",
	Title: "fusing needs more heat than the cloth can take",
	Level: finding.Error,
	Fix:   rule.Never,
	Each:  runFusingTooHot,
	Doc: `
Checks
The least heat the fusible tape or interfacing needs against what every cloth of the item
can take. Where the order does not state it, the usual setting for fusing is used.

Because
At the heat that melts the glue the cloth is glazed, scorched or melted; at the heat the
cloth can take, the glue does not hold.

Working
least heat for the fusing ≤ hottest sole plate at the setting the cloth can take.

Correction
Shown: baste, or use double-sided tape or a low-heat fusing.

Source
ISO 3758:2012, from memory; the maker's leaflet of the fusing comes first.
`,
}

func runFusingTooHot(p *rule.Pass, it *worksheet.Item) {
	o := &it.Order.Press
	if !o.Fusing.Set || o.Fusing.Value == "none" {
		return
	}
	most, ok := stands(p, it)
	if !ok {
		return
	}
	at, needs, does := o.Fusing.At, order.Heat{Dots: p.Tables.House.FusingDots}, "usually needs"
	if o.FusingAt.Set {
		at, needs, does = o.FusingAt.At, o.FusingAt.Value, "needs"
	}
	if milli(p, needs) <= most {
		return
	}
	f := finding.Finding{
		At: at, Source: ironSymbols,
		Fixes: finding.Advice("Baste, or use double-sided tape or a low-heat fusing"),
	}
	if o.FusingAt.Set {
		f.Stated = o.FusingAt.Node.Text
	} else {
		f.Stated, f.Source = o.Fusing.Value, p.Tables.SelfSource("fusing_dots")
	}
	if c := noIron(p, it); c != nil {
		f.Message = fmt.Sprintf("Fusible %s %s %s, and %s may not be ironed at all.", o.Fusing.Value, does, needs, c.Name)
	} else {
		q := it.Get(worksheet.PressSetting)
		f.Message = fmt.Sprintf("Fusible %s %s %s, but %s allows no more than %s.", o.Fusing.Value, does, needs,
			weakest(p.Sheet.Cloth(q.Of), q.Value.N), order.Heat{Dots: int(q.Value.N)})
	}
	p.Report(f)
}
