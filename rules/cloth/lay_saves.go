package cloth

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var laySaves = &rule.Rule{
	ID:    "cloth/lay-saves",
	Title: "cutting in rows takes more cloth than another way",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runLaySaves,
	Doc: `
Checks
The pieces of a cloth laid for cuts from edge to edge, and laid freely, against the rows
right across that the cloth to buy is worked from.

Because
Small pieces leave waste beside long ones in a row. Cut from edge to edge of what is left,
or around each other, they often take a selling length less.

Working
The lays of cutgate lay, rounded up to what the cloth is sold by. Reported where that is
less by a selling step and by a tenth. Not looked for where the way of cutting, bolts or flaws
are stated, where something on the order is wrong, or with more than 200 pieces. A lay
may be missed where the first ones tried do not save enough.

Correction
Shown: write laid on the cloth, or in the house rules, and the cloth to buy follows it.

Source
common practice, no source
`,
}

// wayWords are the ways of cutting, by the form's words, as they are said.
var wayWords = map[string]string{"guillotine": "cut from edge to edge", "free": "laid freely"}

func runLaySaves(p *rule.Pass) {
	if s := p.Sheet; len(s.Wrong)+len(s.Misread)+len(s.Disagreements) > 0 {
		return // what is cut is put right before it is laid
	}
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		if misordered(p, c) {
			continue
		}
		var best worksheet.Closer
		text := ""
		for _, w := range p.Sheet.Closer(c) {
			if text == "" {
				text = fmt.Sprintf("In rows right across, %s takes %s; %s, %s", c.Name, byTheBolt(p, c.ToBuy.Value.Length()), wayWords[w.Way.String()], byTheBolt(p, w.ToBuy))
			} else {
				text += fmt.Sprintf(", and %s, %s", wayWords[w.Way.String()], byTheBolt(p, w.ToBuy))
			}
			best = w
		}
		if text == "" {
			continue
		}
		p.Report(finding.Finding{
			At:      c.Order.At,
			Message: fmt.Sprintf("%s: %s less.", text, byTheBolt(p, c.ToBuy.Value.Length()-best.ToBuy)),
			Working: c.ToBuy.Working(p.Sheet.Unit),
			Source:  worksheet.Common,
			Fixes:   finding.Advice(fmt.Sprintf("See it with cutgate lay --mode %[1]s; to buy cloth for it, write laid: %[1]s on the cloth", best.Way)),
		})
	}
}
