// Package rule is the contract between the pipeline and the rules: what a rule
// is, and all that it sees. A rule is a value without state; a Pass is its
// whole world.
package rule

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// Fixes says whether a rule's findings come with a fix.
type Fixes uint8

// How often a finding of a rule has a fix that can be applied.
const (
	Never Fixes = iota
	Sometimes
	Always
)

// A Rule checks one thing.
type Rule struct {
	ID    string // topic/slug: what is wrong, never the remedy
	Title string // a lower-case phrase
	Doc   string // under the headings of Headings
	Level finding.Level
	Fix   Fixes
	Run   func(*Pass)
}

// Headings are the headings of a rule's Doc, in their order. Correction may be
// left out where the correction is certain or where there is none.
func Headings() []string { return []string{"Checks", "Because", "Working", "Correction", "Source"} }

// Topic is the part of the ID before the slash.
func (r *Rule) Topic() string { topic, _, _ := strings.Cut(r.ID, "/"); return topic }

// A Pass is one rule's view of one order.
type Pass struct {
	Order  *order.Order
	Tables *trade.Tables
	Sheet  *worksheet.Sheet

	rule  *Rule
	level finding.Level
	found *[]finding.Finding
}

// NewPass makes a pass that appends what the rule reports to found. The level
// is the rule's own unless the house sets another.
func NewPass(r *Rule, level finding.Level, sheet *worksheet.Sheet, found *[]finding.Finding) *Pass {
	return &Pass{Order: sheet.Order, Tables: sheet.Tables, Sheet: sheet, rule: r, level: level, found: found}
}

// Report files a finding: it stamps the rule, the level and the path, and
// panics on an empty message, a range outside the order's file, and edits that
// overlap or lie outside it.
func (p *Pass) Report(f finding.Finding) {
	f.Rule, f.Level = p.rule.ID, p.level
	if f.Path == "" {
		f.Path = p.Order.PathAt(f.At)
	}
	if err := f.Validate(len(p.Order.File.Text)); err != nil {
		panic(fmt.Sprintf("rule %s: %v", p.rule.ID, err))
	}
	*p.found = append(*p.found, f)
}
