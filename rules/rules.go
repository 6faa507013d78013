// Package rules joins the topics' rules in one order.
package rules

import (
	"slices"

	"cutgate/internal/rule"
	"cutgate/rules/length"
)

// All returns every rule, topic by topic.
func All() []*rule.Rule {
	return slices.Concat(
		length.Rules(),
	)
}
