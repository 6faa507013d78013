package width

import (
	"cutgate/internal/goods"
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var nearlyAWidth = &rule.Rule{
	ID:    "width/nearly-a-width",
	Title: "one more width for a sliver of fullness",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runNearlyAWidth,
	Doc: `
Checks
Whether the fullness comes to just over a number of widths that would give nearly
the same fullness, and still enough for the heading.

Because
One more width is a whole length of cloth and another join in every such panel. Once
they see it, many makers would cut four widths for 4.08.

Working
The widths before they are rounded up are compared with the next lower number of whole and
half widths in each panel. Reported where they are over it by no more than the shop's
limit, in all panels together, and the fullness would still be enough.

Correction
Likely: the smaller number, with the cut's count to match. The fullness is the
client's, so it is changed only with --likely.

Source
Cotswold Sewing School, Calculating fabric (4.08 widths); common practice, no source,
for what is near.
`,
}

func runNearlyAWidth(p *rule.Pass, it *worksheet.Item) {
	widths, fullness, ok := goods.NearMiss(it)
	exact, worked := it.Get(worksheet.WidthsExact), it.Get(worksheet.Widths)
	if !ok || it.Unread || worked == nil || widths.Cmp(worked.Value.R) >= 0 || miscounted(p, it.Index) || p.Sheet.RestsOnDoubt(exact) || p.Sheet.InDoubt(it.Index, "", worksheet.FinishedWidth, worksheet.FlatWidth) {
		return
	}
	if exact.Value.R.Sub(widths).Cmp(p.Tables.House.NearWidth) > 0 {
		return // near in each panel, but not in all of them
	}
	if it.Heading != nil && fullness.Cmp(it.Heading.Least.Sub(p.Tables.House.FullnessSlack)) < 0 {
		return
	}
	stated := &it.Order.Widths
	f := finding.Finding{
		At:      stated.At,
		Message: nearly(it, widths, fullness),
		Working: exact.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("near_width"),
	}
	if stated.Set {
		f.Stated = stated.Node.Text
	}
	fix := finding.Fix{Title: fmt.Sprintf("Use %s %s", widths, number(widths.String(), "widths"))}
	if edits := scantEdits(p, it.Index, widths); edits != nil {
		fix.Sureness, fix.Edits = finding.Likely, edits
	}
	f.Fixes = []finding.Fix{fix}
	p.Report(f)
}

// miscounted reports whether an item's widths, or the pieces that follow from
// them, are already found to be wrong.
func miscounted(p *rule.Pass, item int) bool {
	return p.Sheet.InDoubt(item, "", worksheet.Widths, worksheet.PieceCount, worksheet.FlatWidth)
}

// nearly says what the widths come to and what fewer would give, as far as two
// places tell them apart.
func nearly(it *worksheet.Item, widths, fullness length.Ratio) string {
	exact := it.Get(worksheet.WidthsExact).Value.R.Format(2)
	comes := exact + " " + number(exact, "widths")
	if exact == widths.Format(2) {
		comes = "just over " + comes
	}
	gives, wants := fullness.Format(2), asked(it).Format(2)
	if gives == wants {
		return fmt.Sprintf("The fullness needs %s; %s would do.", comes, widths)
	}
	return fmt.Sprintf("The fullness needs %s; %s would give a fullness of %s instead of %s.", comes, widths, gives, wants)
}

// asked is the fullness that the widths were worked from.
func asked(it *worksheet.Item) length.Ratio { return it.Ratio("fullness") }

// scantEdits write the smaller number of widths where the order states one, and
// where it states how many are cut; nil where it states none, where either can't be
// edited, or where something else that is stated was worked out from the widths, as it
// would no longer agree.
func scantEdits(p *rule.Pass, item int, widths length.Ratio) []finding.Edit {
	it := &p.Sheet.Items[item]
	stated := &it.Order.Widths
	if !stated.Set || !p.Editable(stated.Node) {
		return nil
	}
	edits := []finding.Edit{p.Set(stated.Node, decimal(widths, stated))}
	from := worksheet.WidthsPerPanel
	if it.Get(from) == nil { // it is not made in panels
		from = worksheet.Widths
	}
	for _, of := range p.Sheet.StatedFrom(item, from) {
		if of.Node == stated.Node {
			continue
		}
		if !slices.ContainsFunc(it.Order.Cuts, func(c order.Cut) bool {
			return c.Count.Node == of.Node && worksheet.SamePiece(c.Piece.Value, "width") && (!c.Cloth.Set || c.Cloth.Value == it.Order.Cloth.Value)
		}) || !p.Editable(of.Node) {
			return nil
		}
		edits = append(edits, p.Set(of.Node, length.NewRatio(widths.Int(length.Up), 1).Format(0)))
	}
	return edits
}

// decimal writes widths in the manner of the stated number.
func decimal(widths length.Ratio, as *order.Ratio) string {
	if n, _, err := length.ScanNumber(as.Node.Text); err == nil {
		return n.Print(widths, 2)
	}
	return widths.Format(1)
}
