package fabric

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var fibersNotHundred = &rule.Rule{
	ID:    "fabric/fibers-not-hundred",
	Title: "fibers do not add up to 100%",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runFibersNotHundred,
	Doc: `
Checks
Whether the shares of a cloth's fibers add up to 100 %.

Because
A fiber left out may be the one that decides how hot the iron may be, and a label with
such shares is false.

Working
Sum of the shares = 100 %. Rounded shares, such as three of 33 %, may each be off by less
than half a percent.

Correction
Where swapped digits or a decimal place explain one share and no other, it is changed
with --likely.

Source
16 CFR 303.3, on shares by weight; common practice, no source
`,
}

var whole = length.NewRatio(1, 1)

func runFibersNotHundred(p *rule.Pass) {
	for i := range p.Order.Cloths {
		c := &p.Order.Cloths[i]
		sum, ok := total(p.Order, c)
		off := sum.Sub(whole)
		if off.Num < 0 {
			off = off.Neg()
		}
		if !ok || off.IsZero() || off.Cmp(length.NewRatio(int64(len(c.Of.Fiber)), 200)) < 0 {
			continue
		}
		f := finding.Finding{
			At:      span(c.Of.Fiber),
			Message: fmt.Sprintf("The fibers of %s add up to %s, not 100%%: check each share against the label.", c.Name, sum.Percent()),
			Working: []string{working(c.Of.Fiber, sum)},
			Source:  "16 CFR 303.3",
		}
		if e, text := slip(c.Of.Fiber, sum); e != nil {
			f.Fixes = p.Likely(e.Of.Node, text, fmt.Sprintf("Make the %s %s", e.Name, text))
		}
		p.Report(f)
	}
}

// total is the sum of a cloth's shares; not ok where there are none or one can't
// be read.
func total(o *order.Order, c *order.Entry[order.Cloth]) (sum length.Ratio, ok bool) {
	for i := range c.Of.Fiber {
		if !c.Of.Fiber[i].Of.Set {
			return sum, false
		}
		sum = sum.Add(c.Of.Fiber[i].Of.Value)
	}
	for i := range o.Flaws {
		if strings.HasPrefix(o.Flaws[i].Path, "cloths."+c.Name+".fiber") && o.Flaws[i].Kind != order.OtherWord {
			return sum, false
		}
	}
	return sum, len(c.Of.Fiber) > 0
}

// span is where the shares stand, from the first name to the last share.
func span(list []order.Entry[order.Percent]) source.Range {
	at := list[0].Key
	if end := list[len(list)-1].Of.At.End; end > at.End {
		at.End = end
	}
	return at
}

func working(list []order.Entry[order.Percent], sum length.Ratio) string {
	var parts []string
	for i := range list {
		parts = append(parts, list[i].Of.Value.Percent())
	}
	return strings.Join(parts, " + ") + " = " + sum.Percent()
}

// slip returns the one share that a known slip explains, and what it should be.
func slip(list []order.Entry[order.Percent], sum length.Ratio) (found *order.Entry[order.Percent], text string) {
	for i := range list {
		e := &list[i]
		right := e.Of.Value.Add(whole).Sub(sum)
		n, unit, err := length.ScanNumber(e.Of.Node.Text)
		if err != nil || right.Num <= 0 {
			continue
		}
		ten := length.NewRatio(10, 1)
		written := n.Print(right.Mul(length.NewRatio(100, 1)), 1)
		if right.Cmp(e.Of.Value.Mul(ten)) != 0 && right.Mul(ten).Cmp(e.Of.Value) != 0 &&
			!swapped(written, strings.TrimSuffix(e.Of.Node.Text, unit)) {
			continue
		}
		if found != nil {
			return nil, ""
		}
		found, text = e, written+unit
	}
	return found, text
}

// swapped reports whether a and b are two digits, each other's the other way
// round.
func swapped(a, b string) bool { return len(a) == 2 && len(b) == 2 && a[0] == b[1] && a[1] == b[0] }
