package press

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var fusingTooCool = &rule.Rule{
	ID:    "press/fusing-too-cool",
	Title: "iron is too cool for the fusing to hold",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runFusingTooCool,
	Doc: `
Checks
The stated setting of the iron against the least heat stated for the fusible tape or
interfacing, where the cloth can take that heat.

Because
The glue does not melt through. The hem holds on the bench and comes down at the window.

Working
setting ≥ least heat of the fusing.

Correction
Likely: the coolest setting that reaches it.

Source
The maker's leaflet of the fusing, as the order states it; ISO 3758:2012, from
memory, for what a setting comes to.
`,
}

func runFusingTooCool(p *rule.Pass, it *worksheet.Item) {
	o := &it.Order.Press
	if !unfused(p, it) {
		return
	}
	s := &o.Setting
	v := worksheet.DotsOf(p.Sheet.Dots(o.FusingAt.Value))
	right := p.Sheet.Print(s.Node, v, it.Get(worksheet.PressSetting).Round)
	p.Report(finding.Finding{
		At: s.At,
		Message: fmt.Sprintf("The fusible %s needs %s and won't hold at %s; press at %s.",
			o.Fusing.Value, o.FusingAt.Value, s.Value, order.Heat{Dots: int(v.N)}),
		Stated: s.Node.Text, Corrected: right, Source: ironSymbols,
		Related: []finding.Related{{Range: o.FusingAt.At, Message: "the least the fusing needs"}},
		Fixes:   p.Likely(s.Node, right, "Press at "+right),
	})
}
