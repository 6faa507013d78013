package fabric

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var measuredDiffers = &rule.Rule{
	ID:    "fabric/measured-differs",
	Title: "measured cloth differs from the stated, and a cut changes",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runMeasuredDiffers,
	Doc: `
Checks
The width, repeat and shrinkage the cutter measured against those stated for the cloth,
where the difference changes the cuts.

Because
Everything is worked out from what was measured, so the cuts are not those expected when
the order was taken, and more cloth may be needed.

Working
The order is worked out once more with the stated figure instead. In a gathered curtain, a
full width that is a little wider or narrower does not count as a change; one width more
does. Cuts stated on the order are left to the rules for cuts.

Correction
None is made: the measured figure is used already. Whether to accept the cloth is between
the maker and the merchant.

Source
common practice, no source
`,
}

// A measure is one thing that a cloth states and the cutter measured.
type measure struct {
	at              source.Range
	text            string
	stated          bool
	same            bool
	found, expected string
	clear           func(*order.Measurements)
}

// How often the order is worked out without a measure, and how many items and cloths are
// worked in all of these: an order in which very many are measured is long.
const (
	mostWorked = 100
	mostItems  = 200_000
)

func runMeasuredDiffers(p *rule.Pass) {
	worked := 0
	for i := range p.Order.Measured {
		name := p.Order.Measured[i].Name
		c := p.Sheet.Cloth(name)
		if c == nil || len(c.Items()) == 0 {
			continue
		}
		for _, m := range measures(p.Sheet.Unit, c.Order, &p.Order.Measured[i].Of) {
			if !m.stated || m.same {
				continue
			}
			if worked++; worked > mostWorked || worked*(len(p.Order.Items)+len(p.Order.Cloths)) > mostItems {
				return
			}
			change := changed(p.Sheet, without(p, i, m.clear))
			if change == "" {
				continue
			}
			p.Report(finding.Finding{
				At:      m.at,
				Message: fmt.Sprintf("The cloth %s %s, not the stated %s: %s.", name, m.found, m.expected, change),
				Stated:  m.text,
				Source:  worksheet.Common,
				Fixes:   finding.Advice("Ask the merchant, or take the cloth as it is"),
			})
		}
	}
}

// measures are the things that can be stated and measured.
func measures(u length.Unit, c *order.Cloth, m *order.Measurements) (list []measure) {
	lengths := func(stated, found *order.Length, says string, clear func(*order.Measurements)) {
		if !found.Set {
			return
		}
		list = append(list, measure{
			at: found.At, text: found.Node.Text, stated: stated.Set, same: stated.Value == found.Value, clear: clear,
			found:    fmt.Sprintf(says, found.Value.Format(u, length.Nearest)),
			expected: stated.Value.Format(u, length.Nearest),
		})
	}
	shares := func(stated, found *order.Percent, says string, clear func(*order.Measurements)) {
		if !found.Set || c.Washed.Value {
			return
		}
		list = append(list, measure{
			at: found.At, text: found.Node.Text, stated: stated.Set, same: stated.Value.Cmp(found.Value) == 0, clear: clear,
			found: fmt.Sprintf(says, found.Value.Percent()), expected: stated.Value.Percent(),
		})
	}
	lengths(&c.Width, &m.Width, "measures %s across", func(m *order.Measurements) { m.Width = order.Length{} })
	lengths(&c.Repeat.Length, &m.Repeat.Length, "repeats every %s", func(m *order.Measurements) { m.Repeat.Length = order.Length{} })
	lengths(&c.Repeat.Width, &m.Repeat.Width, "repeats every %s across", func(m *order.Measurements) { m.Repeat.Width = order.Length{} })
	shares(&c.Shrinks.Length, &m.Shrinks.Length, "lost %s of its length in the wash", func(m *order.Measurements) { m.Shrinks.Length = order.Percent{} })
	shares(&c.Shrinks.Width, &m.Shrinks.Width, "lost %s of its width in the wash", func(m *order.Measurements) { m.Shrinks.Width = order.Percent{} })
	return list
}

// without works the order out as if one thing had not been measured.
func without(p *rule.Pass, i int, clear func(*order.Measurements)) *worksheet.Sheet {
	o := *p.Order
	o.Measured = slices.Clone(o.Measured)
	clear(&o.Measured[i].Of)
	return worksheet.Work(&o, p.Tables, p.Sheet.Kinds)
}

// changed says which cut of s is another one than in was, the first that the
// order does not state; "" where there is none.
func changed(s, was *worksheet.Sheet) string {
	for i := range s.Items {
		for _, now := range s.Items[i].Pieces {
			for _, old := range was.Items[i].Pieces {
				if old.Name != now.Name {
					continue
				}
				switch {
				case differs(s, now.Count, old.Count):
					return fmt.Sprintf("the order cuts %s instead of %d", worksheet.Many(now.Count.Value.N, now.Name), old.Count.Value.N)
				case s.Items[i].Get(worksheet.FlatWidth) == nil && differs(s, now.Width, old.Width):
					return fmt.Sprintf("the %s is cut %s wide instead of %s", now.Name, now.Width.Value.Format(s.Unit, now.Width.Round),
						old.Width.Value.Format(s.Unit, old.Width.Round))
				case differs(s, now.Length, old.Length):
					return fmt.Sprintf("the %s is cut %s long instead of %s", now.Name, now.Length.Value.Format(s.Unit, now.Length.Round),
						old.Length.Value.Format(s.Unit, old.Length.Round))
				}
			}
		}
	}
	return ""
}

// differs reports whether a quantity is another one, and the order does not
// state it.
func differs(s *worksheet.Sheet, now, old *worksheet.Quantity) bool {
	if now == nil || old == nil || now.Value.Format(s.Unit, now.Round) == old.Value.Format(s.Unit, old.Round) {
		return false
	}
	return !slices.ContainsFunc(s.Stated, func(of worksheet.Stated) bool { return of.Quantity == now })
}
