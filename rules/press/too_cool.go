package press

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var tooCool = &rule.Rule{
	ID:    "press/too-cool",
	Title: "iron is too cool to press creases in or out",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Each:  runTooCool,
	Doc: `
Checks
The stated setting of the iron against the one that creases the fibers of the face cloth.
Where fusing needs more heat, press/fusing-too-cool reports that instead.

Because
Without enough heat, cotton and linen hems and pleats won't press sharp, and the folds
from the bolt stay in.

Working
setting ≥ what creases the fiber, where every cloth of the item can take that much.

Correction
Likely: the setting that creases the cloth. Try it on a scrap.

Source
common practice, no source
`,
}

func runTooCool(p *rule.Pass, it *worksheet.Item) {
	setting := it.Get(worksheet.PressSetting)
	s := &it.Order.Press.Setting
	if !s.Set || s.Value.None || setting == nil || it.Face == nil || unfused(p, it) {
		return
	}
	creases := int64(it.Face.Creases)
	if p.Sheet.Dots(s.Value) >= creases || creases > setting.Value.N {
		return
	}
	v := worksheet.DotsOf(creases)
	right := p.Sheet.Print(s.Node, v, setting.Round)
	p.Report(finding.Finding{
		At: s.At,
		Message: fmt.Sprintf("At %s the creases in %s stay in; it needs at least %s.",
			s.Value, it.Face.Name, v.Format(p.Sheet.Unit, length.Nearest)),
		Stated: s.Node.Text, Corrected: right, Source: creaseSource(p, it.Face),
		Fixes: p.Likely(s.Node, right, "Press at "+right),
	})
}

// creaseSource is who says at what setting the cloth creases.
func creaseSource(p *rule.Pass, c *worksheet.Cloth) string {
	for i := range c.Order.Fiber {
		if f, ok := p.Tables.FiberByName(c.Order.Fiber[i].Name); ok && f.Creases >= c.Creases {
			return f.CreaseSource
		}
	}
	return worksheet.Common
}
