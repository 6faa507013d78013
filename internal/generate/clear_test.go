package generate

import (
	"flag"
	"math/rand/v2"
	"testing"

	"cutgate/internal/load"
)

// orders is how many orders of each kind are looked at: go test ./internal/generate
// -run Clear -args -orders 500.
var orders = flag.Int("orders", 8, "orders of each kind of goods")

// kindsOf are all that an order may be drawn of: a curtain by its heading.
func kindsOf(g *Generator) []string {
	list := append([]string{"shower curtain"}, kindsMade...)
	for _, h := range g.Checker.Tables.Headings {
		list = append(list, h.Style)
	}
	return list
}

// Orders with everything stated that is worked out are clear to cut, as the program
// writes it and as people round it.
func TestClear(t *testing.T) {
	for _, kind := range kindsOf(newGenerator(t)) {
		t.Run(kind, func(t *testing.T) {
			t.Parallel()
			g := newGenerator(t)
			g.Kind = kind
			for o, err := range g.All(1, *orders) {
				if err != nil {
					t.Fatal(err)
				}
				if len(o.outcomes) == 0 {
					t.Fatalf("order %d states nothing:\n%s", o.Number, o.YAML())
				}
				for _, way := range []string{"filled in", "rounded by hand"} {
					if way == "rounded by hand" {
						o.RoundByHand(rand.New(rand.NewPCG(1, uint64(o.Number))))
					}
					res := g.Checker.CheckFile(written(o.form), load.JSON)[0]
					if f := Gravest(res.Findings); f != nil {
						t.Errorf("order %d, %s: %s: %s\n%s", o.Number, way, f.Rule, f.Message, o.YAML())
					}
				}
			}
		})
	}
}
