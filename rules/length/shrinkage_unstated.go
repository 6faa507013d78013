package length

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

var shrinkageUnstated = &rule.Rule{
	ID:    "length/shrinkage-unstated",
	Title: "washable cloth with no shrinkage stated",
	Level: finding.Note,
	Fix:   rule.Never,
	Run:   runShrinkageUnstated,
	Doc: `
Checks
Whether a cloth with a wash temperature, made only of fibers known to shrink along the
cloth (cotton, linen, wool, silk, viscose), states its shrinkage, a measured sample or
a wash before cutting.

Because
Untreated, such a cloth loses inches in its first wash, and the curtain then hangs
clear of the floor for good.

Working
Each fiber's published shrinkage; fibers too minor for a label are left out. A blend
with a fiber that holds its length is not asked about.

Source
Shrinkage rates of general fabrics, 2018; Kembrel, shrinkage questions.
`,
}

func runShrinkageUnstated(p *rule.Pass) {
	var hung map[*worksheet.Cloth]bool
	for i := range p.Sheet.Cloths {
		c := &p.Sheet.Cloths[i]
		o := c.Order
		if !o.Care.Wash.Set || o.Washed.Value || o.Washed.Node != nil && !o.Washed.Set || o.Shrinks.Length.Node != nil || sampled(p, c.Name) || p.Order.Misspelt(o.At, "shrinks") {
			continue
		}
		if hung == nil {
			hung = hanging(p)
		}
		if !hung[c] {
			continue
		}
		f := mostShrinking(p.Tables, c)
		if f == nil {
			continue
		}
		p.Report(finding.Finding{
			At: o.Shrinks.Length.At,
			Message: fmt.Sprintf("The cloth %s is washed at %s and states no shrinkage: untreated %s may lose %s of its length.",
				c.Name, o.Care.Wash.Value, f.Name, f.Shrinks.Percent()),
			Source:  f.ShrinkSource,
			Related: []finding.Related{{Range: o.Care.Wash.At, Message: "to be washed"}},
			Fixes:   finding.Advice("Wash a measured sample and state its shrinkage, or wash the cloth before cutting"),
		})
	}
}

// mostShrinking is the fiber of a cloth that shrinks most, or nil if one of them
// is not known to shrink enough to ask.
func mostShrinking(t *trade.Tables, c *worksheet.Cloth) (most *trade.Fiber) {
	for i := range c.Order.Fiber {
		e := &c.Order.Fiber[i]
		if e.Of.Set && e.Of.Value.Cmp(t.House.MinorFiber) < 0 {
			continue
		}
		f, ok := t.FiberByName(e.Name)
		if !ok || f.Shrinks.Cmp(t.House.ShrinkAsk) < 0 {
			return nil
		}
		if most == nil || f.Shrinks.Cmp(most.Shrinks) > 0 {
			most = f
		}
	}
	return most
}

// sampled reports whether the cutter measured what a sample of the cloth shrinks.
func sampled(p *rule.Pass, cloth string) bool {
	m := p.Sheet.Measured(cloth)
	return m != nil && m.Shrinks.Length.Node != nil
}

// hanging are the cloths that something is cut from that was worked out.
func hanging(p *rule.Pass) map[*worksheet.Cloth]bool {
	cloths := map[*worksheet.Cloth]bool{}
	for i := range p.Sheet.Items {
		for j := range p.Sheet.Items[i].Pieces {
			cloths[p.Sheet.Items[i].Pieces[j].Cloth] = true
		}
	}
	return cloths
}
