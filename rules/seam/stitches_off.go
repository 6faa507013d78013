package seam

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var stitchesOff = &rule.Rule{
	ID:    "seam/stitches-off",
	Title: "stitches to the inch do not suit the cloth",
	Level: finding.Note,
	Fix:   rule.Always,
	Asked: true,
	Each:  runStitchesOff,
	Doc: `
Checks
The stated stitches to the inch against what suits the cloth's class or a neighboring
one.

Because
Long stitches gape and slip under the weight of a hanging; short ones pucker
thin cloth and cut heavy cloth along the needle holes.

Working
least for the class and its neighbors ≤ stitches to the inch ≤ most for them. A stitch
length in millimeters makes 25.4 ÷ that length to the inch.

Correction
Likely: the number that a stitch length in millimeters comes to, or else the nearest that
suits the class itself.

Source
University of Illinois Extension, Draperies: make your own; S. Furrer, Stitches
per inch.
`,
}

func runStitchesOff(p *rule.Pass, it *worksheet.Item) {
	s := &it.Order.Join.Stitches
	if !s.Set || s.Value.Num <= 0 || it.Face == nil || it.Face.Class == nil {
		return
	}
	class := it.Face.Class
	least, most := class.Stitches.Least, class.Stitches.Most
	for _, c := range classes(p, class) {
		least, most = lesser(least, c.Stitches.Least), lesser(most.Neg(), c.Stitches.Most.Neg()).Neg()
	}
	var right length.Ratio
	switch {
	case s.Value.Cmp(least) < 0:
		right = class.Stitches.Least
	case s.Value.Cmp(most) > 0:
		right = class.Stitches.Most
	default:
		return
	}
	f := finding.Finding{
		At: s.At,
		Message: fmt.Sprintf("For %s cloth sew %s to %s stitches to the inch, not %s.", class.Name,
			class.Stitches.Least.Format(1), class.Stitches.Most.Format(1), s.Value.Format(1)),
		Stated: s.Node.Text, Source: class.SewSource,
	}
	perInch := length.NewRatio(length.RatioOf(length.Inch, length.Millimetre).Quo(s.Value).Int(length.Nearest), 1)
	if perInch.Cmp(class.Stitches.Least) >= 0 && perInch.Cmp(class.Stitches.Most) <= 0 {
		right = perInch
		f.Slip = "a stitch length in millimeters was written"
		f.Message = fmt.Sprintf("%s looks like a stitch length in millimeters, which is %s to the inch; for %s cloth sew %s to %s.",
			s.Value.Format(1), perInch.Format(1), class.Name, class.Stitches.Least.Format(1), class.Stitches.Most.Format(1))
	}
	f.Corrected = right.Format(1)
	f.Fixes = p.Likely(s.Node, f.Corrected, "Sew "+f.Corrected+" stitches to the inch")
	p.Report(f)
}

func lesser(a, b length.Ratio) length.Ratio {
	if b.Cmp(a) < 0 {
		return b
	}
	return a
}
