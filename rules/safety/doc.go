// Package safety checks what could hurt someone: cords and loops that a child
// can reach, cloth that burns where the public goes or near heat, small parts
// and lead in a nursery.
//
// The limits are the stated market's, from the tables. They do not replace local
// codes or licensed practice, and nothing here is ever corrected automatically.
package safety

import (
	"slices"
	"strings"
	"unicode"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// corded are the items with a cord whose length and height matter. In a nursery
// no cord may be at all, and of a cord that can't be read whole nothing is said.
func corded(p *rule.Pass) (list []*order.Item) {
	if p.Order.Use.Value == "nursery" {
		return nil
	}
	for i := range p.Order.Items {
		if it := &p.Order.Items[i]; it.Cord.Set && !flawed(p.Order, it.Cord.At) {
			list = append(list, it)
		}
	}
	return list
}

// flawed reports whether anything in a place on the form could not be read.
func flawed(o *order.Order, in source.Range) bool {
	return slices.ContainsFunc(o.Flaws, func(f order.Flaw) bool {
		return f.Kind != order.OtherWord && in.Start <= f.At.Start && f.At.End <= in.End
	})
}

// nursery are the items of an order for a nursery.
func nursery(p *rule.Pass) (list []*order.Item) {
	if p.Order.Use.Value != "nursery" {
		return nil
	}
	for i := range p.Order.Items {
		list = append(list, &p.Order.Items[i])
	}
	return list
}

// ruled is what a market's rule says, as a sentence: "The Canadian rule: …".
func ruled(market, says string) string {
	switch market {
	case "AU":
		market = "Australian"
	case "CA":
		market = "Canadian"
	}
	return "The " + market + " rule: " + says + "."
}

// cordName is what a cord is called in a message.
func cordName(c *order.Cord) string {
	if c.Kind.Set && c.Kind.Value != "tie" {
		return c.Kind.Value
	}
	return "cord"
}

// isLoop reports whether a cord works as a loop.
func isLoop(c *order.Cord) bool { return strings.HasSuffix(c.Kind.Value, " loop") }

// isTie reports whether a cord ties the cloth back; it works nothing.
func isTie(c *order.Cord) bool { return c.Kind.Value == "tie" }

// limitOf returns a limit of the order's market for an item, or nil. A curtain's track
// is under no standard for blinds.
func limitOf(p *rule.Pass, it *order.Item, name string) *trade.Cord {
	if !p.Order.Market.Set {
		return nil
	}
	limits := p.Tables.CordLimits(p.Order.Market.Value)
	for i := range limits {
		if limits[i].Limit == name && !(limits[i].Blinds && it.Kind.Value == "curtain") {
			return &limits[i]
		}
	}
	return nil
}

// over reports whether l is longer than the limit lets it be.
func over(limit *trade.Cord, l length.Length) bool {
	return l > limit.Most || limit.Under && l == limit.Most
}

// within reports whether a height above the floor is within reach.
func within(limit *trade.Cord, height length.Length) bool {
	return height < limit.Height || limit.Under && height == limit.Height
}

// atMost and atLeast are facts of a measure: what it is, and the limit of it.
func atMost(of string, is, limit length.Length) finding.Fact {
	return finding.Fact{Of: of, Value: int64(is), Limit: int64(limit), More: true}
}

func atLeast(of string, is, limit length.Length) finding.Fact {
	return finding.Fact{Of: of, Value: int64(is), Limit: int64(limit)}
}

// cordFacts are all that an order says of a cord that may not be there at all.
func cordFacts(c *order.Cord) []finding.Fact {
	facts := []finding.Fact{{Of: "cord", Is: c.Kind.Value}}
	for _, m := range []struct {
		of   string
		leaf *order.Length
		more bool
	}{{"cord length", &c.Length, true}, {"loop length", &c.LoopLength, true}, {"lowest point", &c.Lowest, false}, {"held at", &c.HeldAt, false}} {
		if m.leaf.Set {
			facts = append(facts, finding.Fact{Of: m.of, Value: int64(m.leaf.Value), More: m.more})
		}
	}
	return facts
}

// use is where the things will be: at home unless stated.
func use(o *order.Order) string {
	if o.Use.Set {
		return o.Use.Value
	}
	return "home"
}

// claimed reports whether one of the mill's claims is one that is asked for.
// Years, parts and punctuation don't matter: BS5867 Part 2:2008 Type B is BS
// 5867-2 type B.
func claimed(claims []order.Text, asked []string) bool {
	return slices.ContainsFunc(claims, func(c order.Text) bool {
		return slices.ContainsFunc(asked, func(a string) bool { return inOrder(words(a), words(c.Value)) })
	})
}

// inOrder reports whether all of want stand in have, in their order.
func inOrder(want, have []string) bool {
	for _, h := range have {
		if len(want) > 0 && h == want[0] {
			want = want[1:]
		}
	}
	return len(want) == 0
}

// words are the letters and the numbers of a claim, each run of them one word,
// without the words that say nothing.
func words(claim string) (list []string) {
	word, last := "", 0
	flush := func() {
		if word != "" && word != "part" && word != "type" {
			list = append(list, word)
		}
		word = ""
	}
	for _, r := range strings.ToLower(claim) {
		sort := 0
		switch {
		case unicode.IsDigit(r):
			sort = 1
		case unicode.IsLetter(r):
			sort = 2
		}
		if sort != last {
			flush()
		}
		if last = sort; sort != 0 {
			word += string(r)
		}
	}
	flush()
	return list
}

// clothKey is where a cloth's name stands.
func clothKey(p *rule.Pass, c *worksheet.Cloth) source.Range {
	for i := range p.Order.Cloths {
		if e := &p.Order.Cloths[i]; &e.Of == c.Order {
			return e.Key
		}
	}
	return c.Order.At
}
