package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var railroadSaves = &rule.Rule{
	ID:    "cloth/railroad-saves",
	Title: "joins that turning the cloth would save",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runRailroadSaves,
	Doc: `
Checks
Items with joins whose length, with hems, fits across a plain cloth stated to have no nap,
where turning it takes no more cloth.

Because
With its length across the bolt the item is cut in one piece, without joins. The cloth
then hangs by its weft, which does not suit every cloth.

Working
finished length + top + bottom hem ≤ cloth width, and the flat width runs along the bolt

Correction
Shown: hang a length of it turned first.

Source
common practice, no source
`,
}

func runRailroadSaves(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		for _, r := range c.Railroads {
			p.Report(finding.Finding{
				At: p.Sheet.Items[r.Item].Order.Cloth.At,
				Message: fmt.Sprintf("The length with its hems is %s and %s is %s wide: turned, it takes %s and saves %s%s.",
					p.Show(r.Across), c.Name, p.Show(c.Width),
					byTheBolt(p, r.Along), worksheet.Many(r.Joins, "join"), andCloth(p, r.Saves)),
				Source: worksheet.Common,
				Fixes:  finding.Advice("Hang a length of it turned, and see how it falls"),
			})
		}
	}
}

func andCloth(p *rule.Pass, saves length.Length) string {
	if saves < length.Step(p.Sheet.Unit) {
		return ""
	}
	return " and " + byTheBolt(p, saves) + " of cloth"
}
