package waiver_test

import (
	"testing"

	"cutgate/internal/load"
	"cutgate/internal/ruletest"
	"cutgate/internal/source"
	"cutgate/rules"
	"cutgate/rules/waiver"
)

// The rules are about what all others find.
func TestRules(t *testing.T) { ruletest.Run(t, waiver.Rules(), ".", rules.All()...) }

// TestUnread holds the topic to silence about a waiver that could not be read
// whole, and about what may be waived once the order can be read.
func TestUnread(t *testing.T) {
	const (
		head = "order: QL-61\nunits: cm\ncloths: {tweed: {width: 140}}\n"
		item = "items: [{item: napkin, cloth: tweed, finished: {width: 40, length: 40}, hem: {turn: 1}}]\n"
	)
	for name, text := range map[string]string{
		"no rule":        head + item + "waive: [{because: agreed}]",
		"no reason":      head + item + "waive: [{rule: hole}]",
		"no such day":    head + item + "waive: [{rule: hole, because: agreed, until: 2026-02-30}]",
		"other field":    head + item + "waive: [{rule: hoel, because: '', ends: 2026-01-31}]",
		"order not read": head + "notes: [1]\n" + item + "waive: [{rule: hole, because: agreed}]",
	} {
		for _, res := range ruletest.Checker(t, rules.All()...).CheckFile(&source.File{Name: name, Text: text}, load.YAML) {
			if len(res.Order.Flaws) == 0 {
				t.Errorf("%s: all could be read", name)
			}
			for _, f := range res.Findings {
				for _, r := range waiver.Rules() {
					if f.Rule == r.ID {
						t.Errorf("%s: %s: %s", name, f.Rule, f.Message)
					}
				}
			}
		}
	}
}
