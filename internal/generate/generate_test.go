package generate

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/lint"
	"cutgate/rules"
)

func newGenerator(t *testing.T) *Generator {
	t.Helper()
	checker, err := lint.New(rules.All())
	if err != nil {
		t.Fatal(err)
	}
	return &Generator{Seed: 7, Checker: checker}
}

// TestDeterministic makes the same orders twice, in other company.
func TestDeterministic(t *testing.T) {
	g := newGenerator(t)
	var text []byte
	for o, err := range g.All(10, 40) {
		if err != nil {
			t.Fatal(err)
		}
		text = append(append(text, o.JSON()...), '\n')
	}
	for n := 49; n >= 10; n-- {
		o, err := g.Order(n)
		if err != nil {
			t.Fatal(err)
		}
		line := append(o.JSON(), '\n')
		if !bytes.HasSuffix(text, line) {
			t.Fatalf("order %d is not the same a second time:\n%s", n, line)
		}
		text = bytes.TrimSuffix(text, line)
	}
}

// TestYAML writes a form the way that people do.
func TestYAML(t *testing.T) {
	form := of("order", "TR-1", "units", "in",
		"cloths", of("duck", of("name", "plain duck", "width", `54"`, "shrinks", of("length", "3%"), "washed", true, "ordered", nil)),
		"items", []*block{of("item", "shower curtain", "cuts", []*block{of("piece", "side", "width", "14 1/4", "length", nil)},
			"hems", of("top", of("turn", "10½", "folds", "2")), "waive", []*block{})})
	want := `order: TR-1
units: in
cloths:
  duck:
    name: plain duck
    width: "54\""
    shrinks: {length: "3%"}
    washed: true
    ordered:
items:
  - item: shower curtain
    cuts:
      - {piece: side, width: 14 1/4, length: null}
    hems:
      top: {turn: 10½, folds: 2}
    waive: []
`
	if diff := cmp.Diff(want, string(appendYAML(nil, form, 0))); diff != "" {
		t.Error(diff)
	}
}

// TestByHand rounds the outcomes of orders, and leaves some of them out, and
// nothing else.
func TestByHand(t *testing.T) {
	g := newGenerator(t)
	for _, change := range []func(*Order, *rand.Rand){(*Order).RoundByHand, (*Order).BlankHalf} {
		changed, outcomes := 0, 0
		for n := range 20 {
			o, err := g.Order(n)
			if err != nil {
				t.Fatal(err)
			}
			rng := rand.New(rand.NewPCG(1, uint64(n)))
			was := make([]any, len(o.outcomes))
			for i, x := range o.outcomes {
				was[i] = x.in.get(x.name)
				if was[i] == nil {
					t.Errorf("order %d: %s is still blank", n, x.name)
				}
			}
			before := o.JSON()
			change(o, rng)
			for i, x := range o.outcomes {
				outcomes++
				if x.in.get(x.name) != was[i] {
					changed++
					x.in.set(x.name, was[i])
				}
			}
			if !bytes.Equal(before, o.JSON()) {
				t.Errorf("order %d: a choice is changed", n)
			}
		}
		if 8*changed < outcomes || changed == outcomes {
			t.Errorf("%d of %d outcomes are changed", changed, outcomes)
		}
	}
}
