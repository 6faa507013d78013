package hole

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var boreTight = &rule.Rule{
	ID:    "hole/bore-tight",
	Title: "bore too tight for the pole or the hook",
	Level: finding.Warning,
	Fix:   rule.Never,
	Each:  runBoreTight,
	Doc: `
Checks
The bore of a curtain's eyelets against the diameter of the pole; the bore of other
grommets against the hook or ring that goes through, plus ease.

Because
A ring tight on its pole grips instead of sliding, and drawing the curtain tears its
top. A hook forced through a grommet spreads it.

Working
bore ≥ 1.3 × pole; the shop's own figure comes first. For hooks, bore ≥ hook + ease.

Source
Singer Sewing Custom Curtains, Shades and Top Treatments, excerpt (30 to 40 percent
over the pole); common practice, no source, for hooks.
`,
}

func runBoreTight(p *rule.Pass, it *worksheet.Item) {
	house := &p.Tables.House
	h := &it.Order.Holes
	if h.Make.Value != "grommet" || !h.Bore.Set || p.Sheet.Doubted(h.Bore.Node) {
		return
	}
	if it.Heading != nil && it.Heading.Hangs == "holes" {
		pole := &it.Order.Track.Diameter
		least := pole.Value.MulRatio(house.BoreLeast, length.Up)
		if pole.Set && h.Bore.Value < least {
			reportTight(p, h, pole, "pole", least, p.Tables.SelfSource("bore_least"), eyelet(p, pole.Value))
		}
		return
	}
	ease := house.HoleEase
	if h.Ease.Set {
		ease = h.Ease.Value
	}
	if h.Hook.Set && h.Bore.Value < h.Hook.Value+ease {
		reportTight(p, h, &h.Hook, "hook", h.Hook.Value+ease, worksheet.Common, "Take grommets with a wider bore, or thinner hooks")
	}
}

// reportTight reports a bore that is under the least for what goes through it.
func reportTight(p *rule.Pass, h *order.Holes, through *order.Length, what string, least length.Length, source, title string) {
	f := finding.Finding{
		At: h.Bore.At,
		Message: fmt.Sprintf("The bore is %s and the %s is %s thick: to slide, it needs a bore of %s or more.",
			small(p, h.Bore.Value), what, small(p, through.Value), small(p, least)),
		Stated:  h.Bore.Node.Text,
		Source:  source,
		Related: []finding.Related{{Range: through.At, Message: "the " + what}},
		Fixes:   finding.Advice(title),
	}
	if h.Bore.Value <= through.Value {
		f.Message = fmt.Sprintf("The bore is %s and the %s is %s thick: it won't go on. To slide, it needs a bore of %s or more.",
			small(p, h.Bore.Value), what, small(p, through.Value), small(p, least))
	}
	p.Report(f)
}

// eyelet is the advice of which eyelet takes a pole.
func eyelet(p *rule.Pass, pole length.Length) string {
	e := p.Tables.EyeletForRod(pole)
	if e == nil {
		return "Take wider eyelets, or a thinner pole"
	}
	return fmt.Sprintf("Take eyelets with a %s bore and a %s flange, for poles up to %s", small(p, e.Bore), small(p, e.Flange), small(p, e.Rod))
}
