package lint_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/fix"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// renames is a made-up rule: a client of one name is called by another.
func renames(id, from, to string, sure finding.Sureness) *rule.Rule {
	return &rule.Rule{ID: id, Level: finding.Warning, Run: func(p *rule.Pass) {
		if c := p.Order.Client; c.Value == from {
			p.Report(finding.Finding{At: c.At, Message: "The client is " + from + ".", Fixes: []finding.Fix{
				{Title: "Name it " + to, Sureness: sure, Edits: []finding.Edit{p.Set(c.Node, to)}},
			}})
		}
	}}
}

// rewrites is a made-up rule that makes edits where the order has a certain text.
func rewrites(id, mark string, edits func(*rule.Pass, *order.Node) []finding.Edit) *rule.Rule {
	return &rule.Rule{ID: id, Level: finding.Error, Run: func(p *rule.Pass) {
		var find func(n *order.Node) *order.Node
		find = func(n *order.Node) *order.Node {
			if n.Text == mark || n.Name == mark {
				return n
			}
			for i := range n.Kids {
				if k := find(&n.Kids[i]); k != nil {
					return k
				}
			}
			return nil
		}
		if n := find(p.Order.Root); n != nil {
			p.Report(finding.Finding{At: n.At, Message: "It is there.", Fixes: []finding.Fix{
				{Title: "Write it otherwise", Sureness: finding.Certain, Edits: edits(p, n)},
			}})
		}
	}}
}

// told is what changed, a line each.
func told(c lint.Corrected) (list []string) {
	for _, x := range c.Changes {
		list = append(list, fmt.Sprintf("%d %s: %s → %s (%s, %s)", c.File.Position(x.At.Start).Line, x.Field, x.Was, x.Now, x.Rule, x.Sureness))
	}
	return list
}

func TestCorrect(t *testing.T) {
	text := "[" + docket("1", "Hall") + ",\n" + docket("2", "Moor") + ",\n" + docket("3", "Hall") + "]\n"
	c := checker(renames("head/b", "Mill", "Lodge", finding.Certain), renames("head/a", "Hall", "Mill", finding.Certain), renames("head/c", "Lodge", "Cottage", finding.Likely))
	for _, x := range []struct {
		how  lint.Correcting
		name string
		want []string
	}{
		{lint.Correcting{}, "Lodge", []string{"1 client: Hall → Lodge (head/b, certain)", "3 client: Hall → Lodge (head/b, certain)"}},
		{lint.Correcting{Likely: true}, "Cottage", []string{"1 client: Hall → Cottage (head/c, likely)", "3 client: Hall → Cottage (head/c, likely)"}},
	} {
		out, err := c.Correct(&source.File{Name: "orders.json", Text: text}, load.JSON, x.how)
		if err != nil {
			t.Fatal(err)
		}
		if want := strings.ReplaceAll(text, "Hall", x.name); out.File.Text != want || len(out.Results) != 3 {
			t.Errorf("%+v: %d orders, which say\n%s", x.how, len(out.Results), out.File.Text)
		}
		if d := cmp.Diff(x.want, told(out)); d != "" {
			t.Errorf("%+v: %s", x.how, d)
		}
	}
}

func TestChanges(t *testing.T) {
	text := `{"order": "1", "units": "in", "cloths": {"reef": {"width": 60}}, "items": [
{"item": "napkin", "id": "tea", "cloth": "reef", "finished": {"width": 20, "length": 20}, "hem": {"turn": "1/4"},
 "cuts": [{"piece": "body",
  "width": 13}, {"piece": "end", "width": "12"}]}]}
`
	set := func(to string) func(*rule.Pass, *order.Node) []finding.Edit {
		return func(p *rule.Pass, n *order.Node) []finding.Edit { return []finding.Edit{p.Set(n, to)} }
	}
	at := func(start, end int, text string) finding.Edit {
		return finding.Edit{Range: source.Range{Start: start, End: end}, Text: text}
	}
	for _, c := range []struct {
		name string
		rule *rule.Rule
		want string
	}{
		{"a number becomes a text", rewrites("r/a", "13", set("13 1/2")), "4 body cut width: 13 → 13 1/2 (r/a, certain)"},
		{"a text", rewrites("r/a", "12", set("12 1/2")), "4 end cut width: 12 → 12 1/2 (r/a, certain)"},
		{"of an item", rewrites("r/a", "napkin", set("runner")), "2 tea item: napkin → runner (r/a, certain)"},
		{"of a group", rewrites("r/a", "1/4", set("3/8")), "2 hem turn: 1/4 → 3/8 (r/a, certain)"},
		{"of a cloth", rewrites("r/a", "60", set("54")), "1 reef width: 60 → 54 (r/a, certain)"},
		{"of the order", rewrites("r/a", "1", set("2")), "1 order: 1 → 2 (r/a, certain)"},
		{"a name", rewrites("r/a", "turn", func(p *rule.Pass, n *order.Node) []finding.Edit {
			return []finding.Edit{p.SetKey(n, "first")}
		}), "2 tea hem: turn → first (r/a, certain)"},
		{"put in around", rewrites("r/a", "13", func(_ *rule.Pass, n *order.Node) []finding.Edit {
			return []finding.Edit{at(n.At.Start, n.At.Start, `"`), at(n.At.End, n.At.End, ` in"`)}
		}), "4 body cut width: 13 → 13 in (r/a, certain)"},
		{"long", rewrites("r/a", "13", set(strings.Repeat("13 ", 20))), "4 body cut width: 13 → " + strings.Repeat("13 ", 13) + "… (r/a, certain)"},
	} {
		out, err := checker(c.rule).Correct(&source.File{Name: "orders.json", Text: text}, load.JSON, lint.Correcting{})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if d := cmp.Diff([]string{c.want}, told(out)); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}

func TestCorrectGivesUp(t *testing.T) {
	quote := rewrites("head/quote", "Hall", func(_ *rule.Pass, n *order.Node) []finding.Edit {
		return []finding.Edit{{Range: n.At, Text: `"`}}
	})
	split := rewrites("head/split", "Hall", func(_ *rule.Pass, n *order.Node) []finding.Edit {
		return []finding.Edit{{Range: n.At, Text: `Mill"}, {"order": "`}}
	})
	for _, c := range []struct {
		name  string
		rules []*rule.Rule
		names []string
		says  string
	}{
		{"swings", []*rule.Rule{renames("head/a", "Hall", "Mill", finding.Certain), renames("head/b", "Mill", "Hall", finding.Certain), client},
			[]string{"head/a", "head/b"}, "undo each other"},
		{"breaks", []*rule.Rule{quote, client}, []string{"head/quote"}, "an order can no longer be read"},
		{"makes two of one", []*rule.Rule{split, client}, []string{"head/split"}, "an order can no longer be read"},
		{"a rule breaks on it", []*rule.Rule{renames("head/a", "Hall", "Breaker", finding.Certain), breaks, client}, []string{"head/a"}, "head/breaks crashed"},
	} {
		f := &source.File{Name: "orders.json", Text: "[" + docket("1", "Moor") + "," + docket("2", "Hall") + "]"}
		out, err := checker(c.rules...).Correct(f, load.JSON, lint.Correcting{})
		var u *fix.Unsettled
		if !errors.As(err, &u) || !slices.Equal(u.Rules, c.names) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: the error is %v", c.name, err)
		}
		if out.File != f || len(out.Changes) > 0 || len(out.Results) != 2 || len(out.Results[1].Findings) == 0 {
			t.Errorf("%s: the text and what is found in it do not stand", c.name)
		}
	}
}

func TestCorrectUnreadable(t *testing.T) {
	f := &source.File{Name: "orders.yaml", Text: "order: 1\nclient: Hall\n---\norder: [\n"}
	out, err := checker(renames("head/a", "Hall", "Mill", finding.Certain), flaws).Correct(f, load.YAML, lint.Correcting{Fill: true})
	if err != nil || out.File.Text != "order: 1\nclient: Mill\n---\norder: [\n" {
		t.Errorf("beside an order that can't be read it becomes %q: %v", out.File.Text, err)
	}
	f = &source.File{Name: "orders.json", Text: docket("1", "Breaker")}
	out, err = checker(breaks).Correct(f, load.JSON, lint.Correcting{})
	var broken *lint.Broken
	if !errors.As(err, &broken) || out.File != f {
		t.Errorf("where a rule breaks the error is %v", err)
	}
}

// TestFillComesLast fills in what is blank when the rest is right.
func TestFillComesLast(t *testing.T) {
	text := `order: 1
client: Hall
units: in
cloths:
  reef: {width: 60, fiber: {cotton: 100}, ordered: }
items:
  - item: shower curtain
    cloth: reef
    finished: {width: 50, length: 70}
    hems: {bottom: {turn: 3, folds: 2}}
    cuts:
      - {piece: piece}
`
	c := checker(renames("head/a", "Hall", "Mill", finding.Certain))
	out, err := c.Correct(&source.File{Name: "order.yaml", Text: text}, load.YAML, lint.Correcting{Fill: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(out.Applied) == 0 || out.Applied[0].Finding.Rule != "head/a" || out.Applied[1].Round != 2 {
		t.Errorf("it went by %+v", out.Applied)
	}
	for _, want := range []string{
		"2 client: Hall → Mill (head/a, certain)", "13 piece cut count:  → 1 (worked out, certain)", "11 shower curtain widths:  → 1 (worked out, certain)",
	} {
		if !slices.Contains(told(out), want) {
			t.Errorf("nothing is said of %q:\n%s", want, strings.Join(told(out), "\n"))
		}
	}
	if out, err = c.Correct(&source.File{Name: "order.yaml", Text: text}, load.YAML, lint.Correcting{}); err != nil || strings.Contains(out.File.Text, "count") {
		t.Errorf("it is filled in unasked, or not at all: %v\n%s", err, out.File.Text)
	}
}
