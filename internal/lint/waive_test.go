package lint_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/load"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// Made-up rules: an error about safety for each item, a note about each cloth,
// and one that tells what came of each waiver.
var (
	pins = &rule.Rule{ID: "safety/pins-left", Level: finding.Error, Run: func(p *rule.Pass) {
		for i := range p.Order.Items {
			p.Report(finding.Finding{At: p.Order.Items[i].Kind.At, Message: "There are pins."})
		}
	}}
	cloths = &rule.Rule{ID: "cloth/there", Level: finding.Note, Run: func(p *rule.Pass) {
		for i := range p.Order.Cloths {
			p.Report(finding.Finding{At: p.Order.Cloths[i].Of.Width.At, Message: "There is a cloth."})
		}
	}}
	uses = &rule.Rule{ID: "waiver/used", Level: finding.Note, Run: func(p *rule.Pass) {
		for i := range p.Waivers {
			u := &p.Waivers[i]
			text := fmt.Sprintf("%s: matched %d, refused %d", u.Rule.Value, u.Matched, u.Refused)
			for _, state := range []struct {
				is  bool
				say string
			}{{u.Of != nil, "on an item"}, {u.Unread, "unread"}, {u.Unknown, "unknown " + u.Nearest}, {u.Past, "past"}, {u.Holds(), "holds"}} {
				if state.is {
					text += ", " + state.say
				}
			}
			p.Report(finding.Finding{At: u.At, Message: text + "."})
		}
	}}
)

// waiving is an order in YAML with waivers on its first item and on the order.
func waiving(item, order string) string {
	return `order: A1
units: in
cloths:
  reef: {width: 60}
items:
  - {item: napkin, cloth: reef, finished: {width: 20, length: 20}, hem: {turn: 1/4}, waive: [` + item + `]}
  - {item: napkin, cloth: reef, finished: {width: 16, length: 16}, hem: {turn: 1/4}}
waive: [` + order + `]
`
}

func TestWaive(t *testing.T) {
	// What is found without a waiver.
	const (
		cloth  = "A1 note cloths.reef.width There is a cloth."
		first  = "A1 warning items[0].item There is an item."
		second = "A1 warning items[1].item There is an item."
		pin1   = "A1 error items[0].item There are pins."
		pin2   = "A1 error items[1].item There are pins."
	)
	for _, c := range []struct {
		name        string
		item, order string
		rules       []*rule.Rule
		want        []string // findings, and what became of the waivers
		waived      []string
	}{
		{
			"none", "", "", []*rule.Rule{items, uses},
			[]string{first, second, "A1 ask first"}, nil,
		},
		{
			"on an item, within it", "{rule: items/item-there, because: agreed, by: RM, until: 2026-06-15}", "", []*rule.Rule{items, cloths, uses},
			[]string{cloth, "A1 note items[0].waive[0] items/item-there: matched 1, refused 0, on an item, holds.", second, "A1 ask first"},
			[]string{"items[0].item items/item-there because agreed by RM until 2026-06-15"},
		},
		{
			"on the order, anywhere in it, by topic", "", "{rule: items, because: agreed}, {rule: cloth, because: ' measured twice '}", []*rule.Rule{items, cloths, uses},
			[]string{"A1 note waive[0] items: matched 2, refused 0, holds.", "A1 note waive[1] cloth: matched 1, refused 0, holds.", "A1 clear to cut"},
			[]string{"cloths.reef.width cloth/there because measured twice by  until ", "items[0].item items/item-there because agreed by  until ", "items[1].item items/item-there because agreed by  until "},
		},
		{
			"the item's own goes first", "{rule: items, because: of the item}", "{rule: items, because: of the order}", []*rule.Rule{items, uses},
			[]string{"A1 note items[0].waive[0] items: matched 1, refused 0, on an item, holds.", "A1 note waive[0] items: matched 2, refused 0, holds.", "A1 clear to cut"},
			[]string{"items[0].item items/item-there because of the item by  until ", "items[1].item items/item-there because of the order by  until "},
		},
		{
			"those that don't hold", "{rule: items, because: ' '}, {rule: items, because: agreed, until: 2026-06-14}", "{rule: item, because: agreed}", []*rule.Rule{items, uses},
			[]string{
				first, "A1 note items[0].waive[0] items: matched 1, refused 0, on an item.", "A1 note items[0].waive[1] items: matched 1, refused 0, on an item, past.",
				second, "A1 note waive[0] item: matched 0, refused 0, unknown items.", "A1 ask first",
			}, nil,
		},
		{
			"one that can't be read whole", "{rule: items, because: agreed, until: never}", "{rule: items, because: agreed, ends: 2027}", []*rule.Rule{items, uses},
			[]string{first, "A1 note items[0].waive[0] items: matched 1, refused 0, on an item, unread.", second, "A1 note waive[0] items: matched 2, refused 0, unread.", "A1 ask first"}, nil,
		},
		{
			"flaws outside of waivers, but not within", "", "{rule: form, because: agreed, by: [RM]}, {rule: form, because: agreed}", []*rule.Rule{flaws, uses},
			[]string{"A1 note waive[0] form: matched 0, refused 0, unread.", "A1 note waive[0].by A flaw.", "A1 note waive[1] form: matched 0, refused 0, holds.", "A1 clear to cut"}, nil,
		},
		{
			"safety unsigned, and what else is waived with it", "{rule: safety, because: agreed, by: RM}", "{rule: safety/pins-left, because: agreed, until: 2027-01-01}", []*rule.Rule{pins, uses},
			[]string{pin1, "A1 note items[0].waive[0] safety: matched 1, refused 1, on an item, holds.", pin2, "A1 note waive[0] safety/pins-left: matched 2, refused 2, holds.", "A1 hold"}, nil,
		},
		{
			"safety signed, but for a whole topic", "{rule: safety, because: agreed, by: RM, until: 2027-01-01}", "", []*rule.Rule{pins, uses},
			[]string{pin1, "A1 note items[0].waive[0] safety: matched 1, refused 1, on an item, holds.", pin2, "A1 hold"}, nil,
		},
		{
			"safety signed for 401 days", "{rule: safety/pins-left, because: agreed, by: RM, until: 2027-07-21}", "", []*rule.Rule{pins, uses},
			[]string{pin1, "A1 note items[0].waive[0] safety/pins-left: matched 1, refused 1, on an item, holds.", pin2, "A1 hold"}, nil,
		},
		{
			"safety signed for 400 days", "{rule: safety/pins-left, because: agreed, by: RM, until: 2027-07-20}", "", []*rule.Rule{pins, uses},
			[]string{"A1 note items[0].waive[0] safety/pins-left: matched 1, refused 0, on an item, holds.", pin2, "A1 hold"},
			[]string{"items[0].item safety/pins-left because agreed by RM until 2027-07-20"},
		},
		{
			"safety signed by nobody that can be seen", `{rule: safety/pins-left, because: agreed, by: "\u200b\u3164.", until: 2027-01-01}`, "", []*rule.Rule{pins, uses},
			[]string{pin1, "A1 note items[0].waive[0] safety/pins-left: matched 1, refused 1, on an item, holds.", pin2, "A1 hold"}, nil,
		},
		{
			"safety signed", "{rule: safety/pins-left, because: agreed, by: RM, until: 2027-01-01}", "", []*rule.Rule{pins, uses},
			[]string{"A1 note items[0].waive[0] safety/pins-left: matched 1, refused 0, on an item, holds.", pin2, "A1 hold"},
			[]string{"items[0].item safety/pins-left because agreed by RM until 2027-01-01"},
		},
		{
			"waivers themselves", "", "{rule: waiver, because: agreed}, {rule: waiver/used, because: agreed}", []*rule.Rule{uses},
			[]string{"A1 note waive[0] waiver: matched 0, refused 0, holds.", "A1 note waive[1] waiver/used: matched 0, refused 0, holds.", "A1 clear to cut"}, nil,
		},
		{
			"rules about waivers are run last", "", "{rule: items, because: agreed}", []*rule.Rule{uses, items},
			[]string{"A1 note waive[0] items: matched 2, refused 0, holds.", "A1 clear to cut"},
			[]string{"items[0].item items/item-there because agreed by  until ", "items[1].item items/item-there because agreed by  until "},
		},
	} {
		ch := checker(c.rules...)
		ch.Today = "2026-06-15"
		results := ch.CheckFile(&source.File{Name: "a.yaml", Text: waiving(c.item, c.order)}, load.YAML)
		if d := cmp.Diff(c.want, said(results...)); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
		var waived []string
		for _, w := range results[0].Aside.Waived {
			waived = append(waived, fmt.Sprintf("%s %s because %s by %s until %s", w.Path, w.Rule, w.Because, w.By, w.Until))
		}
		if d := cmp.Diff(c.waived, waived); d != "" {
			t.Errorf("%s: other findings are waived (-want +got)\n%s", c.name, d)
		}
	}
}

// TestWaiveOff holds a rule that a shop switched off to be known all the same,
// and one about safety to want a signature whatever level it has.
func TestWaiveOff(t *testing.T) {
	ch := checker(items, pins, uses)
	ch.Levels = map[string]finding.Level{"items": finding.Off, "safety/pins-left": finding.Warning}
	text := waiving("{rule: items, because: agreed}", "{rule: safety, because: agreed}")
	want := []string{
		"A1 warning items[0].item There are pins.",
		"A1 note items[0].waive[0] items: matched 0, refused 0, on an item, holds.",
		"A1 warning items[1].item There are pins.",
		"A1 note waive[0] safety: matched 2, refused 2, holds.", "A1 ask first",
	}
	if d := cmp.Diff(want, said(ch.CheckFile(&source.File{Name: "a.yaml", Text: text}, load.YAML)...)); d != "" {
		t.Error(d)
	}
}

// TestNoDay holds a waiver to its end only where today is known.
func TestNoDay(t *testing.T) {
	text := waiving("", "{rule: items, because: agreed, until: 2001-01-01}")
	var got []int
	for _, day := range []string{"", "2001-01-01", "2001-01-02"} {
		ch := checker(items)
		ch.Today = day
		got = append(got, len(ch.CheckFile(&source.File{Name: "a.yaml", Text: text}, load.YAML)[0].Aside.Waived))
	}
	if d := cmp.Diff([]int{2, 2, 0}, got); d != "" {
		t.Error(d)
	}
}
