package bed

import (
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

// Rules are the topic's rules.
func Rules() []*rule.Rule {
	guards := slices.Concat(pillowGuards, skirtGuards, duvetGuards, bedspreadGuards, joinGuards)
	return append(rule.Guards(guards), skirtDropOff)
}

// joinGuards are about covers of a bed that are joined from several pieces.
var joinGuards = []rule.Guard{{
	ID: "bed/join-down-middle", Title: "join runs down the middle of the bed", Level: finding.Warning, Kinds: []string{"duvet cover", "bedspread"},
	When: "layout: equal, {joins} = 1", At: []string{"join.layout"},
	Message: "Two equal pieces put the join down the middle of the bed, where it shows most: use a center and two sides.",
	Checks:  "Where the only join of a duvet cover or a bedspread lies.",
	Because: "A join down the middle is the first thing seen, and people lie on it. A full width goes in the middle and part of one on each side.",
	Source:  "Alternative Windows, 'Throwover bedspread'; Quirico Sewing Tutorial, 'How to make a bedspread': never down the middle",
	Put:     "center and sides", Fix: "Cut a center and two sides",
}}
