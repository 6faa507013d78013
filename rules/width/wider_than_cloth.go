package width

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var widerThanCloth = &rule.Rule{
	ID:    "width/wider-than-cloth",
	Title: "piece is wider than its cloth",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runWiderThanCloth,
	Doc: `
Checks
The width of each piece of a flat panel against the cloth it is cut from, as measured
at the bench if it was; both sizes of a piece that the maker adds.

Because
It can't be cut. Found out at the bench, that means a join in the wrong place or
another cloth.

Working
cut width ≤ cloth width

Correction
Likely: equal pieces, which always fit the cloth. A cloth without nap or pattern can be
turned instead. Where it is turned already, it is run across and its widths are joined;
if a stated cut agrees with the cloth as it is turned, that is only shown, as the cloth's
width may be wrong instead.

Source
common practice, no source
`,
}

func runWiderThanCloth(p *rule.Pass) {
	for i := range p.Sheet.Items {
		addedTooWide(p, &p.Sheet.Items[i])
	}
	narrow := tooNarrow(p)
	of := func(c *worksheet.Cloth) int { return c.TooWide.Width.Item }
	for i, c := range narrow {
		if slices.ContainsFunc(narrow[:i], func(other *worksheet.Cloth) bool { return of(other) == of(c) }) {
			continue // said with the first: one size makes both pieces too wide
		}
		wide := c.TooWide
		it := &p.Sheet.Items[of(c)]
		if wide.Name == "cover" && it.Word("run") == "along" {
			continue // cornice/too-high-to-run says so
		}
		at, related := widePlace(it.Order, wide.Name)
		free := len(related) == 0 // no cut goes with it
		said := p.Sheet.WidthOf(c).At
		related = slices.Insert(related, 0, finding.Related{Range: said, Message: "how wide the cloth is said to be"})
		for _, other := range narrow[i+1:] {
			if of(other) == of(c) {
				related = append(related, finding.Related{Range: other.Order.Width.At, Message: fmt.Sprintf("so it is with the %s: %s wide, and %s is only %s", other.TooWide.Name, p.Show(other.TooWide.Width.Value.Length()), other.Name, p.Show(other.Width))})
			}
		}
		f := finding.Finding{
			At:      at,
			Message: fmt.Sprintf("The %s has to be cut %s wide, but %s is only %s wide.", wide.Name, p.Show(wide.Width.Value.Length()), c.Name, p.Show(c.Width)),
			Working: wide.Width.Working(p.Sheet.Unit),
			Source:  worksheet.Common,
			Related: related,
		}
		if narrowest, _, _ := p.Sheet.Woven(); c.Width < narrowest { // no way of cutting follows from such a width
			f.Message = fmt.Sprintf("%s can hardly be %s wide: the %s has to be cut %s wide. Check the cloth's width and its unit.", c.Name, p.Show(c.Width), wide.Name, p.Show(wide.Width.Value.Length()))
			f.At, f.Related[0].Range, f.Related[0].Message = said, at, "what is cut of it"
			p.Report(f)
			continue
		}
		switch run := runOf(it, wide.Name); {
		case run == nil:
			f.Fixes = joinOrTurn(p, it, c)
		case !run.Set:
			f.At, f.Fixes = it.Order.Kind.At, finding.Advice(runAcross)
		default:
			f.At, f.Stated, f.Corrected, f.Fixes = run.At, run.Value, "across", finding.Advice(runAcross)
			if free { // where the cut goes with it, the cloth's width may be wrong
				f.Fixes = p.Likely(run.Node, "across", runAcross)
			}
		}
		p.Report(f)
	}
}

// runAcross is the fix of a turned cloth, of which there is nothing to join.
const runAcross = "Run the cloth across, in widths that are joined"

// tooNarrow are the cloths that a piece is too wide for, the faces of items first.
func tooNarrow(p *rule.Pass) (narrow []*worksheet.Cloth) {
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		if c.TooWide != nil && !p.Sheet.Items[c.TooWide.Width.Item].Unread && !p.Sheet.Doubted(c.Order.Width.Node) && !p.Sheet.RestsOnDoubt(c.TooWide.Width) {
			narrow = append(narrow, c)
		}
	}
	rank := func(c *worksheet.Cloth) int {
		if p.Sheet.Items[c.TooWide.Width.Item].Face == c {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(narrow, func(a, b *worksheet.Cloth) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), strings.Compare(a.Name, b.Name))
	})
	return narrow
}

// joinOrTurn are the ways to cut the piece all the same that is too wide for a cloth.
func joinOrTurn(p *rule.Pass, it *worksheet.Item, c *worksheet.Cloth) (fixes []finding.Fix) {
	const join = "Join equal pieces"
	wide, single := c.TooWide, unjoined[it.Order.Kind.Value]
	switch layout := &it.Order.Join.Layout; {
	case wide.Name == "liner": // it is not joined, and the layout is the curtain's
	case layout.Set && p.Editable(layout.Node):
		fixes = p.Likely(layout.Node, "equal", join)
	case !single:
		fixes = append(fixes, finding.Fix{Title: join, Sureness: finding.Shown})
	}
	plain := c.Order.Nap.Value == "none"
	if single {
		plain = c.Order.Nap.Value != "one way"
	}
	if (wide.Name == "piece" || single) && plain && c.Repeat == 0 && wide.Length != nil && wide.Length.Value.Length() <= c.Width {
		turn := "Turn the cloth"
		if it.Order.Kind.Value == "cushion cover" {
			turn += " (`run: along`)"
		}
		fixes = append(fixes, finding.Fix{
			Title:    fmt.Sprintf("%s, so that the length of %s lies across it", turn, p.Show(wide.Length.Value.Length())),
			Sureness: finding.Shown,
		})
	}
	return fixes
}

// addedTooWide reports the cuts of pieces that an item does not have by itself that fit their
// cloth neither way.
func addedTooWide(p *rule.Pass, it *worksheet.Item) {
	for k := range it.Order.Cuts {
		c := &it.Order.Cuts[k]
		if cloth := it.NarrowFor(c); cloth != nil && c.Piece.Set {
			p.Report(finding.Finding{
				At: c.Width.At, Stated: c.Width.Node.Text, Source: worksheet.Common,
				Message: fmt.Sprintf("The %s is to be cut %s by %s, but %s is only %s wide.", c.Piece.Value, p.Show(c.Width.Value), p.Show(c.Length.Value), cloth.Name, p.Show(cloth.Width)),
			})
		}
	}
}

// unjoined are the kinds whose pieces are not joined from several.
var unjoined = map[string]bool{"cushion cover": true, "pillowcase": true, "tie-back": true, "runner": true, "placemat": true, "napkin": true}

// runOf is the field that turns the cloth of a curtain's piece; nil where it is not
// turned.
func runOf(it *worksheet.Item, piece string) *order.Text {
	if it.Order.Kind.Value != "curtain" {
		return nil
	}
	term, field := "run", &it.Order.Run
	switch piece {
	case "lining":
		term, field = "lining run", &it.Order.Lining.Run
	case "interlining":
		term, field = "interlining run", &it.Order.Interlining.Run
	}
	if it.Word(term) != "along" {
		return nil
	}
	return field
}

// widePlace is the choice that makes a piece too wide, and the cut that says so
// too.
func widePlace(o *order.Item, piece string) (at source.Range, related []finding.Related) {
	for i := range o.Cuts {
		if c := &o.Cuts[i]; c.Piece.Value == piece && c.Width.Set {
			related = append(related, finding.Related{Range: c.Width.At, Message: "the cut is stated that wide too"})
		}
	}
	return joinPlace(o), related
}
