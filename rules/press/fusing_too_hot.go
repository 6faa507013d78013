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
	Title: "fusing needs more heat than the cloth stands",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runFusingTooHot,
	Doc: `
Checks
The least heat that the fusible tape or interfacing needs against what every cloth
of the item stands. Where the order does not state it, the setting that fusing
needs as a rule is taken.

Because
At the heat that melts the glue the cloth is glazed, scorched or melted; at the
heat that it stands the glue does not hold.

Working
least heat of the fusing ≤ sole plate's most at the setting that the cloth stands.

Correction
Shown: baste, or take double-sided tape, or a fusing for low heat.

Source
ISO 3758:2012, from memory; the maker's leaflet of the fusing comes first.
`,
}

func runFusingTooHot(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		o := &it.Order.Press
		if !o.Fusing.Set || o.Fusing.Value == "none" {
			continue
		}
		most, ok := stands(p, it)
		if !ok {
			continue
		}
		at, needs, does := o.Fusing.At, order.Heat{Dots: p.Tables.House.FusingDots}, "as a rule needs"
		if o.FusingAt.Set {
			at, needs, does = o.FusingAt.At, o.FusingAt.Value, "needs"
		}
		if milli(p, needs) <= most {
			continue
		}
		f := finding.Finding{
			At: at, Source: "ISO 3758:2012, from memory",
			Fixes: []finding.Fix{{Title: "Baste, or take double-sided tape or a fusing for low heat"}},
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
}
