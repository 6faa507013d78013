package heading

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var fullnessLow = &rule.Rule{
	ID:    "heading/fullness-low",
	Title: "fullness is too little for the heading",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runFullnessLow,
	Doc: `
Checks
The stated fullness against the least published for the heading, less the shop's slack;
or, where that is enough, the fullness that panels of a stated width make.

Because
A thin heading pulls its pleats flat and hangs like a sheet, and no width can be added
once the cloth is cut.

Working
fullness = panel width, flat × panels ÷ finished width

Correction
None is made: more fullness takes more widths of cloth, and the client may be paying for
less.

Source
the heading's own, in the tables; the slack is common practice, no source
`,
}

func runFullnessLow(p *rule.Pass) {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		h, stated := it.Heading, &it.Order.Heading.Fullness
		if h == nil || p.Sheet.Doubted(stated.Node) {
			continue
		}
		least := h.Least.Sub(p.Tables.House.FullnessSlack)
		high, _ := it.Fullest()
		f := finding.Finding{
			Source: h.Source,
			Fixes:  []finding.Fix{{Title: "Ask, or work with a fullness of " + h.Usual.Format(2), Sureness: finding.Shown}},
		}
		switch {
		case stated.Set && stated.Value.Cmp(least) < 0:
			f.At, f.Stated = stated.At, stated.Node.Text
			f.Message = fmt.Sprintf("A fullness of %s is thin for %s; %s is usual.", stated.Value.Format(2), name(h.Style), suits(h.Least, high))
		case it.Order.PanelWidth.Set && it.Get(worksheet.Fullness) != nil && it.Get(worksheet.Fullness).Value.R.Cmp(least) < 0 && !wrong(p, it, worksheet.FinishedWidth):
			f.At, f.Stated = it.Order.PanelWidth.At, it.Order.PanelWidth.Node.Text
			f.Message = fmt.Sprintf("Panels of %s make a fullness of %s, thin for %s; %s is usual.",
				p.Show(it.Order.PanelWidth.Value), it.Get(worksheet.Fullness).Value.R.Format(2), name(h.Style), suits(h.Least, high))
			f.Working = it.Get(worksheet.Fullness).Working(p.Sheet.Unit)
		default:
			continue
		}
		p.Report(f)
	}
}

// name is what a heading is made of, in the plural: "pencil pleats", "eyelets".
func name(style string) string {
	switch style {
	case "gathered":
		return "gathers"
	case "wave", "goblet", "cartridge", "tab", "eyelet", "pencil pleat", "pinch pleat", "box pleat", "single pinch pleat",
		"double pinch pleat", "triple pinch pleat":
		return style + "s"
	}
	return "a " + style
}
