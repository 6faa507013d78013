package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var repeatNearlySaved = &rule.Rule{
	ID:    "length/repeat-nearly-saved",
	Title: "one more pattern repeat for very little",
	Level: finding.Note,
	Fix:   rule.Never,
	Each:  runRepeatNearlySaved,
	Doc: `
Checks
Whether a cut, before it is rounded up to whole repeats, is only just over a whole
number of them.

Because
That little costs a whole repeat on every cut. A slightly shallower hem or heading
saves it, and nobody sees the difference.

Working
over = cut before the repeat - (repeats in a cut - 1) × repeat

Reported only where the repeat is at least four times that: to save a smaller one, such as
a small check's, is not worth it.

Source
common practice, no source. M.Y.L. Ltd., Commonly used formulas, for whole repeats.
`,
}

func runRepeatNearlySaved(p *rule.Pass, it *worksheet.Item) {
	repeats := it.Get(worksheet.Repeats)
	if it.Unread || repeats == nil || it.Face == nil || repeats.Value.N < 2 {
		return
	}
	repeat, n := it.Face.Repeat, repeats.Value.N
	over := it.Get(worksheet.RawCut).Value.Length() - repeat.Mul(n-1)
	cuts := cutsOf(it)
	if over > p.Tables.House.NearRepeat || 4*over > repeat || cuts == 0 {
		return
	}
	at := it.Order.Finished.Length.At
	little := over.Format(p.Sheet.Unit, length.Up)
	p.Report(finding.Finding{
		At: at,
		Message: fmt.Sprintf("The cut is only %s over %s: %s less in the hems or heading saves a repeat of %s%s.",
			little, times(n-1), little, p.Show(repeat), onEach(cuts)),
		Working: repeats.Working(p.Sheet.Unit),
		Source:  p.Tables.SelfSource("near_repeat"),
		Fixes:   finding.Advice(fmt.Sprintf("Take %s off the hems or the heading", little)),
	})
}

// cutsOf is how many of the face cloth's cuts the order makes of an item.
func cutsOf(it *worksheet.Item) (n int64) {
	for i := range it.Pieces {
		if q := &it.Pieces[i]; q.Cloth == it.Face && q.Count != nil && q.Length == it.Get(worksheet.CutLength) {
			n += q.Count.Value.N * it.Quantity
		}
	}
	return n
}

func times(n int64) string {
	if n == 1 {
		return "one repeat"
	}
	return fmt.Sprintf("%d repeats", n)
}

func onEach(cuts int64) string {
	if cuts == 1 {
		return ""
	}
	return fmt.Sprintf(" on each of %d cuts", cuts)
}
