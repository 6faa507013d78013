package cloth

import (
	"testing"

	"cutgate/internal/load"
	"cutgate/internal/ruletest"
	"cutgate/internal/source"
)

func TestRules(t *testing.T) { ruletest.Run(t, Rules(), ".") }

// TestFarMoreAsRead holds that far too much cloth is asked about where a word was read as
// another, and not where a field that nobody knows may say what the cloth is for.
func TestFarMoreAsRead(t *testing.T) {
	for item, want := range map[string]int{
		"item: curtain":            1,
		"item: drapes":             1,
		"item: curtain, tiers: 40": 0,
	} {
		file := &source.File{Name: "order.yaml", Text: `
order: FR-219
units: cm
cloths: {flax: {width: 280, sold_by: 10 cm, ordered: 34.6 m}}
items:
  - {` + item + `, cloth: flax, panels: 1, finished: {width: 250, length: 260}, heading: {style: pencil pleat, fullness: 2, allowance: 8}, hems: {bottom: {turn: 10}, sides: {turn: 2}}}
`}
		if got := ruletest.Checker(t, orderedOver).CheckFile(file, load.YAML)[0].Findings; len(got) != want {
			t.Errorf("%s: %d findings, want %d: %v", item, len(got), want, got)
		}
	}
}
