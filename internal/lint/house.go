package lint

import (
	"maps"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/load"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// Settable returns the rules as house rules may set levels for them. Errors about
// safety go no lower than a warning, and those about what can't be read at all
// stay, as such an order would else be clear to cut.
func Settable(rules []*rule.Rule) []house.Known {
	list := make([]house.Known, len(rules))
	for i, r := range rules {
		list[i] = house.Known{ID: r.ID, Level: r.Level}
		switch {
		case r.Topic() == SafetyTopic && r.Level == finding.Error:
			list[i].Least, list[i].Why = finding.Warning, "someone could be hurt"
		case slices.Contains(unread, r.ID):
			list[i].Least, list[i].Why = finding.Error, "nothing else is checked there"
		}
	}
	return list
}

// stopped is what a rule of the shop's own panics with that took more than it may to be
// evaluated, so that the order is not taken for checked.
type stopped struct{ err error }

// unread are the rules about an order, or a part of one, that nothing else is
// said of.
var unread = []string{FormTopic + "/unreadable", FormTopic + "/computed"}

// under returns the checker for the orders of a file: c itself, or the one for
// the house that the file stands under.
func (c *Checker) under(f *source.File) (*Checker, error) {
	if c.Houses == nil {
		return c, nil
	}
	h, err := c.Houses.Of(f.Name)
	if h == nil || err != nil {
		return c, err
	}
	if own, ok := c.houses.Load(h); ok {
		return own.(*Checker), nil
	}
	own, _ := c.houses.LoadOrStore(h, c.in(h))
	return own.(*Checker), nil
}

// For returns the checker for the orders of a file: c itself where its house rules can't be
// read.
func (c *Checker) For(f *source.File) *Checker {
	own, _ := c.under(f)
	return own
}

// in returns a checker by the rules of a house: its tables, its levels, and its
// own rules after the others.
func (c *Checker) in(h *house.House) *Checker {
	levels := h.LevelsByName()
	maps.Copy(levels, c.Levels)
	own := &Checker{
		Rules: slices.Clone(c.Rules), Tables: h.Tables, Loader: c.Loader, Levels: levels, TrustCUE: c.TrustCUE, Today: c.Today, Kinds: h.Kinds, AsStated: c.AsStated, Reuse: c.Reuse,
		note: c.lets(h),
	}
	if h.Form != nil {
		own.Loader = load.Of(h.Form)
	}
	for _, r := range h.Rules {
		own.Rules = append(own.Rules, &rule.Rule{
			ID: r.ID, Title: r.Title(), Level: r.Level, Fix: rule.Never,
			Run: func(p *rule.Pass) {
				found, err := r.Check(p.Sheet)
				if err != nil {
					panic(stopped{err})
				}
				for _, f := range found {
					p.Report(f)
				}
			},
		})
	}
	return own
}

// lets says what the rules of a house let through that would be reported otherwise.
func (c *Checker) lets(h *house.House) *finding.House {
	note := &finding.House{File: h.File}
	for _, l := range h.Levels {
		switch {
		case l.Level == finding.Off:
			note.Off = append(note.Off, l.Of)
		case slices.ContainsFunc(c.Rules, func(r *rule.Rule) bool { return rule.Names(l.Of, r.ID) && l.Level < r.Level }):
			note.Lowered = append(note.Lowered, finding.Lowered{Of: l.Of, To: l.Level})
		}
	}
	return note
}
