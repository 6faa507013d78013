package seam

import (
	"fmt"
	"strconv"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var needleOff = &rule.Rule{
	ID:    "seam/needle-off",
	Title: "needle does not suit the cloth",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Each:  runNeedleOff,
	Doc: `
Checks
The stated needle against the sizes that suit the cloth's class or a neighboring one, and
whether it is the needle's other number: 14 for 90.

Because
A thick needle leaves holes in thin cloth that don't close. A thin one bends in heavy
cloth and can break on the plate and fly: wear eye protection.

Working
least for the class and its neighbors ≤ needle ≤ most for them, in hundredths of a
millimeter across the blade.

Correction
Likely: the metric size for the other number, or else the nearest that suits the class
itself.

Source
Needle sizes note, newsletter reprint, 2010.
`,
}

func runNeedleOff(p *rule.Pass, it *worksheet.Item) {
	n := &it.Order.Join.Needle
	if !n.Set || n.Value <= 0 {
		return
	}
	f := finding.Finding{At: n.At, Stated: n.Node.Text}
	var right int64
	if other := p.Tables.NeedleByNumber(n.Value); other != nil {
		right, f.Source = other.Metric, other.Source
		f.Message = fmt.Sprintf("Needle %d is size %d in metric, and this form uses metric sizes.", n.Value, right)
	} else if it.Face != nil && it.Face.Class != nil {
		class := it.Face.Class
		least, most := class.Needle.Least, class.Needle.Most
		for _, c := range classes(p, class) {
			least, most = min(least, c.Needle.Least), max(most, c.Needle.Most)
		}
		if n.Value >= least && n.Value <= most {
			return
		}
		right, f.Source = min(max(n.Value, class.Needle.Least), class.Needle.Most), class.SewSource
		f.Message = fmt.Sprintf("For %s cloth use a needle of size %d to %d, not %d.", class.Name,
			class.Needle.Least, class.Needle.Most, n.Value)
	} else {
		return
	}
	f.Corrected = strconv.FormatInt(right, 10)
	f.Fixes = p.Likely(n.Node, f.Corrected, "Sew with a needle of size "+f.Corrected)
	p.Report(f)
}
