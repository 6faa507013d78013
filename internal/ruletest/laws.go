package ruletest

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// rounds is how often fixes are applied before they must have settled.
const rounds = 10

// A suite checks the cases of one rule.
type suite struct {
	*testing.T
	rule    *rule.Rule
	checker *lint.Checker
	with    *int // findings that come with a fix that can be applied
	without *int // and those that come without
	certain *int // fixes that are made unasked
}

// testFixture holds a rule to its fixture and to the laws.
func testFixture(t *testing.T, r *rule.Rule, file string, others []*rule.Rule) {
	t.Helper()
	fx, err := read(file)
	if err != nil {
		t.Fatal(err)
	}
	if strings.TrimSpace(fx.prose) == "" {
		t.Error("the fixture does not open with prose")
	}
	update := os.Getenv("UPDATE") != ""
	checked := append(without(others, []*rule.Rule{r}), r)
	var with, bare, certain int
	for _, c := range fx.cases {
		t.Run(c.name, func(t *testing.T) {
			b := &suite{T: t, rule: r, checker: Checker(t, checked...), with: &with, without: &bare, certain: &certain}
			b.testCase(c, update)
		})
	}
	for _, kind := range kinds {
		if !slices.ContainsFunc(fx.cases, func(c *kase) bool { return strings.HasPrefix(c.name, kind) }) {
			t.Errorf("the fixture has no case whose name begins with %s", kind)
		}
	}
	testFix(t, r, with, bare)
	if asked := with > 0 && certain == 0; asked != r.Asked {
		t.Errorf("the rule declares that its corrections are asked for: %t; in the fixture %d of them are certain", r.Asked, certain)
	}
	if update {
		if err := fx.write(file); err != nil {
			t.Error(err)
		}
	}
}

// testFix holds what the rule declares of its fixes to what the fixture saw.
func testFix(t *testing.T, r *rule.Rule, with, without int) {
	t.Helper()
	seen := rule.Never
	switch {
	case with > 0 && without > 0:
		seen = rule.Sometimes
	case with > 0:
		seen = rule.Always
	}
	if seen != r.Fix {
		t.Errorf("the rule declares that its findings come with a fix %s; in the fixture %d do and %d do not", r.Fix, with, without)
	}
}

// testCase holds one case to the laws.
func (b *suite) testCase(c *kase, update bool) {
	b.Helper()
	if len(c.orders) == 0 {
		b.Fatal("the case has no order")
	}
	slices.SortFunc(c.orders, func(x, y txtar.File) int { return strings.Compare(x.Name, y.Name) })
	var got strings.Builder
	var fixed []txtar.File
	var first []string
	for i, o := range c.orders {
		text := string(o.Data)
		results := b.check(o.Name, text)
		said := b.testOrders(o.Name, text, results)
		for _, res := range results {
			for _, f := range res.Findings {
				p := res.File.Position(f.At.Start)
				fmt.Fprintf(&got, "%s:%d:%d: %s\n", o.Name, p.Line, p.Column, f.Message)
			}
		}
		if i == 0 {
			first = said
		} else if d := gocmp.Diff(first, said); d != "" {
			b.Errorf("%s and %s do not give the same findings (-first +second):\n%s", c.orders[0].Name, o.Name, d)
		}
		if after := b.testFixed(o.Name, text); after != text {
			fixed = append(fixed, txtar.File{Name: o.Name, Data: []byte(after)})
		}
	}
	b.testKind(c.name, got.String())
	if update {
		c.want, c.fixed = got.String(), fixed
	}
	if d := gocmp.Diff(c.want, got.String()); d != "" {
		b.Errorf("other findings than wanted (-want +got):\n%s", d)
	}
	byName := func(x, y txtar.File) int { return strings.Compare(x.Name, y.Name) }
	if d := gocmp.Diff(texts(slices.SortedFunc(slices.Values(c.fixed), byName)), texts(fixed)); d != "" {
		b.Errorf("the certain fixes make other orders than the case's %s folder has (-want +got):\n%s", fixedFolder, d)
	}
}

func texts(files []txtar.File) []string {
	var list []string
	for _, f := range files {
		list = append(list, f.Name+"\n"+string(f.Data))
	}
	return list
}

func (b *suite) testKind(name, got string) {
	b.Helper()
	if strings.HasPrefix(name, "wrong") && got == "" {
		b.Error("nothing is found, though the case's name says that something is wrong")
	}
	if strings.HasPrefix(name, "right") && got != "" {
		b.Errorf("something is found, though the case's name says that all is right:\n%s", got)
	}
}

// check checks a text, and stops the test where the pipeline does.
func (b *suite) check(name, text string) []lint.Result {
	b.Helper()
	format, ok := load.FormatOf(name)
	if !ok {
		b.Fatalf("%s: not a format of orders", name)
	}
	results := b.checker.CheckFile(&source.File{Name: name, Text: text}, format)
	for i := range results {
		b.own(&results[i])
	}
	return results
}

// own stops the test where the pipeline did, and leaves of a result what the rule
// itself found.
func (b *suite) own(res *lint.Result) {
	b.Helper()
	b.stopOn(res.Err)
	res.Findings = slices.DeleteFunc(res.Findings, func(f finding.Finding) bool { return f.Rule != b.rule.ID })
}

func (b *suite) stopOn(err error) {
	b.Helper()
	if broken := (*lint.Broken)(nil); errors.As(err, &broken) {
		b.Fatalf("%v\n%s", err, broken.Stack)
	}
	if err != nil {
		b.Fatal(err)
	}
}

// testOrders holds what was found in a text to the laws that need no fixture,
// and returns it with the places left out.
func (b *suite) testOrders(name, text string, results []lint.Result) []string {
	b.Helper()
	if again := b.check(name, text); !sameFindings(results, again) {
		b.Errorf("%s: two runs do not find the same", name)
	}
	var all []string
	for _, res := range results {
		b.testFlaws(name, res.Order)
		said := sayings(res.Findings)
		all = append(all, said...)
		again := b.checker.CheckOrder(res.Order)
		b.own(&again)
		if d := gocmp.Diff(res.Findings, again.Findings); d != "" {
			b.Errorf("%s: checking changed the order (-first +second):\n%s", name, d)
		}
		turned := b.checker.CheckOrder(shuffled(res.Order))
		b.own(&turned)
		if d := gocmp.Diff(said, sayings(turned.Findings)); d != "" {
			b.Errorf("%s: other findings with items and cloths in another order (-first +second):\n%s", name, d)
		}
		for _, f := range res.Findings {
			b.testFinding(name, text, &res, f)
		}
	}
	return all
}

func sameFindings(a, b []lint.Result) bool {
	return slices.EqualFunc(a, b, func(x, y lint.Result) bool { return gocmp.Equal(x.Findings, y.Findings) })
}

// testFlaws holds the fixture to orders that can be read whole, so that a slip
// of the pen does not pass for a right case. The form's own rules are about
// flaws.
func (b *suite) testFlaws(name string, o *order.Order) {
	b.Helper()
	if b.rule.Topic() == lint.FormTopic {
		return
	}
	for _, f := range o.Flaws {
		p := o.File.Position(f.At.Start)
		b.Errorf("%s:%d:%d: the order could not be taken as written: kind %d, path %q, name %q, text %q, wanted %q, nearest %q, %s",
			name, p.Line, p.Column, f.Kind, f.Path, f.Name, f.Text, f.Wanted, f.Nearest, f.Detail)
	}
}

// testFinding holds one finding and its fixes to the laws.
func (b *suite) testFinding(name, text string, res *lint.Result, f finding.Finding) {
	b.Helper()
	if f.Message != strings.TrimSpace(f.Message) || strings.Contains(f.Message, "\n") || !strings.ContainsAny(f.Message[len(f.Message)-1:], ".?") {
		b.Errorf("%s: a message is one line that ends in a full stop or a question mark: %q", name, f.Message)
	}
	applicable := 0
	for _, fix := range f.Fixes {
		if fix.Title == "" || fix.Title != strings.TrimSpace(fix.Title) {
			b.Errorf("%s: a fix has the title %q", name, fix.Title)
		}
		if fix.Sureness == finding.Shown {
			continue
		}
		applicable++
		if fix.Sureness == finding.Certain {
			*b.certain++
		}
		if len(fix.Edits) == 0 {
			b.Errorf("%s: the fix %q is %s but changes nothing", name, fix.Title, fix.Sureness)
		}
		b.testOneFix(name, finding.Apply(text, moved(fix.Edits, res.File)), f, fix)
	}
	if applicable > 0 {
		*b.with++
	} else if !fixedPlace(res.Order.Root, f.At) {
		*b.without++
	}
}

// testOneFix holds the text that one fix makes to the law that it loads and no
// longer has the finding.
func (b *suite) testOneFix(name, text string, f finding.Finding, fix finding.Fix) {
	b.Helper()
	for _, res := range b.check(name, text) {
		if res.Order.Root == nil {
			b.Errorf("%s: after the fix %q the order can't be read:\n%s", name, fix.Title, text)
			return
		}
		b.testFlaws(name, res.Order)
		for _, g := range res.Findings {
			if g.Message == f.Message && g.Path == f.Path {
				b.Errorf("%s: the fix %q leaves the finding: %s", name, fix.Title, f.Message)
			}
		}
	}
}

// testFixed applies the certain fixes until they settle.
func (b *suite) testFixed(name, text string) string {
	b.Helper()
	for range rounds {
		var edits []finding.Edit
		for _, res := range b.check(name, text) {
			for _, f := range res.Findings {
				edits = accept(edits, moved(certain(f), res.File))
			}
		}
		if len(edits) == 0 {
			return text
		}
		text = finding.Apply(text, edits)
	}
	b.Errorf("%s: the fixes have not settled after %d rounds:\n%s", name, rounds, text)
	return text
}

// certain returns the edits of the finding's certain fix.
func certain(f finding.Finding) []finding.Edit {
	for _, fix := range f.Fixes {
		if fix.Sureness == finding.Certain {
			return fix.Edits
		}
	}
	return nil
}

// accept adds a fix's edits to those that were accepted, unless one of them
// overlaps those or is there already.
func accept(edits, more []finding.Edit) []finding.Edit {
	for _, m := range more {
		for _, e := range edits {
			if m.Overlaps(e.Range) || m.Range == e.Range {
				return edits
			}
		}
	}
	return append(edits, more...)
}

// moved returns edits of an order's own text as edits of the whole input.
func moved(edits []finding.Edit, f *source.File) []finding.Edit {
	list := slices.Clone(edits)
	for i := range list {
		list[i].Start += f.Base
		list[i].End += f.Base
	}
	return list
}

// fixedPlace reports whether the place stands behind an alias, a reference or a
// computed value.
func fixedPlace(n *order.Node, at source.Range) bool {
	for n != nil {
		if n.Fixed {
			return true
		}
		next := (*order.Node)(nil)
		for i := range n.Kids {
			if k := &n.Kids[i]; k.At.Start <= at.Start && at.End <= k.At.End && k.At.Len() > 0 {
				next = k
				break
			}
		}
		n = next
	}
	return false
}

// sayings returns what findings say, places and working aside, in an order of
// their own.
func sayings(list []finding.Finding) []string {
	var said []string
	for _, f := range list {
		s := fmt.Sprintf("%s %s: %s (stated %q, corrected %q, slip %q)", f.Level, f.Rule, f.Message, f.Stated, f.Corrected, f.Slip)
		for _, fix := range f.Fixes {
			s += fmt.Sprintf("; %s: %s", fix.Sureness, fix.Title)
		}
		said = append(said, s)
	}
	slices.SortFunc(said, cmp.Compare[string])
	return said
}

// shuffled returns the order with its items and its cloths the other way round.
func shuffled(o *order.Order) *order.Order {
	turned := *o
	turned.Items = backwards(o.Items)
	turned.Cloths = backwards(o.Cloths)
	if o.Root != nil {
		root := *o.Root
		root.Kids = slices.Clone(root.Kids)
		for i := range root.Kids {
			if k := &root.Kids[i]; k.Name == "items" || k.Name == "cloths" {
				k.Kids = backwards(k.Kids)
			}
		}
		turned.Root = &root
	}
	return &turned
}

func backwards[T any](list []T) []T {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}
