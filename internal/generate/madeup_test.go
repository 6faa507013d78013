package generate

import (
	"flag"
	"testing"

	"cutgate/internal/load"
)

// orders is how many orders of each kind are looked at: go test ./internal/generate
// -run MadeUp -args -orders 500.
var orders = flag.Int("orders", 8, "orders of each kind of made-up goods")

// Orders of made-up goods with everything stated that is worked out are clear to cut.
func TestMadeUp(t *testing.T) {
	for _, kind := range kindsMade {
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
				res := g.Checker.CheckFile(written(o.form), load.JSON)[0]
				if f := Gravest(res.Findings); f != nil {
					t.Errorf("order %d, %s: %s\n%s", o.Number, f.Rule, f.Message, o.YAML())
				}
			}
		})
	}
}
