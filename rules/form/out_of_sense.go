package form

import (
	"fmt"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var outOfSense = &rule.Rule{
	ID:    "form/out-of-sense",
	Title: "impossible number",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runOutOfSense,
	Doc: `
Checks
Whether numbers are possible for things made of cloth: no width of zero, no
five-kilometer curtain, no shrinkage of eighty percent.

Because
Such a number is a slip of the pen or a wrong unit, and nothing can be worked out
from it.

Working
Each kind of measure has limits far beyond anything that is made. Sizes must be more
than zero.

Correction
With --likely, what can be worked out is written as worked out, and a fullness gets the
decimal point that it lost.

Source
common practice, no source
`,
}

func runOutOfSense(p *rule.Pass) {
	for _, f := range flaws(p, order.OutOfSense) {
		detail := f.Detail
		if detail == "" {
			detail = "check the number"
			if !strings.Contains(f.Wanted, "number") {
				detail += " and its unit"
			}
		}
		out := finding.Finding{
			At:      f.At,
			Message: fmt.Sprintf("%s can't be %s: %s.", begin(field(f)), clip(f.Text), detail),
			Stated:  f.Text,
		}
		if right := pointed(p, f); right != "" {
			out.Message = fmt.Sprintf("%s can't be %s: did you mean %s?", begin(field(f)), clip(f.Text), right)
			out.Corrected, out.Fixes = right, p.Likely(f.Node, right, "Write "+right)
		} else {
			workedOut(p, f, &out)
		}
		p.Report(out)
	}
}

// pointed is a fullness whose decimal point was lost, as 2.25 for 225; "" where a flaw is of
// something else, or makes no sense with a point either.
func pointed(p *rule.Pass, f *order.Flaw) string {
	n, err := strconv.ParseInt(strings.TrimSpace(f.Text), 10, 32)
	if err != nil || f.Name != "fullness" || f.Node == nil {
		return ""
	}
	for _, part := range [...]int64{10, 100} {
		if part < n && n <= 4*part {
			return worksheet.RatioOf(length.NewRatio(n, part)).Format(p.Sheet.Unit, length.Nearest)
		}
	}
	return ""
}
