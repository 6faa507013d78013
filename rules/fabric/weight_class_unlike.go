package fabric

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
)

var weightClassUnlike = &rule.Rule{
	ID:    "fabric/weight-class-unlike",
	Title: "cloth class and weight do not match",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Run:   runWeightClassUnlike,
	Doc: `
Checks
The class stated for a cloth, sheer to very heavy, against its weight.

Because
Hems, stitches, needles and fullness follow the class. If the class is two steps off,
it or the weight is a slip: ounces read as grams, or a weight per running yard.

Working
Each class has a range of weights. One step off is a matter of hand and drape; two or more
are reported.

Correction
With --likely, the class that matches the weight.

Source
common practice, no source
`,
}

func runWeightClassUnlike(p *rule.Pass) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		class, weight := &c.Order.Class, &c.Order.Weight
		if !class.Set || !weight.Set {
			continue
		}
		by := p.Tables.Class(weight.Value)
		stated, right := place(p.Tables, class.Value), -1
		if by != nil {
			right = place(p.Tables, by.Name)
		}
		if stated < 0 || right < 0 || max(stated-right, right-stated) < 2 {
			continue
		}
		p.Report(finding.Finding{
			At: class.At,
			Message: fmt.Sprintf("The cloth %s is called %s, but at %s it would be %s. Which is right?",
				c.Name, class.Value, weight.Node.Text, by.Name),
			Stated:    class.Value,
			Corrected: by.Name,
			Source:    by.Source,
			Related:   []finding.Related{{Range: weight.At, Message: "its weight"}},
			Fixes:     p.Likely(class.Node, by.Name, "Call it "+by.Name),
		})
	}
}

// place is where a class stands among the classes, lightest first; -1 for none.
func place(t *trade.Tables, name string) int {
	for i := range t.Classes {
		if t.Classes[i].Name == name {
			return i
		}
	}
	return -1
}
