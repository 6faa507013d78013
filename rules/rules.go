// Package rules joins the topics' rules in one order.
package rules

import (
	"slices"

	"cutgate/internal/rule"
	"cutgate/rules/bed"
	"cutgate/rules/cloth"
	"cutgate/rules/cornice"
	"cutgate/rules/cushion"
	"cutgate/rules/fabric"
	"cutgate/rules/form"
	"cutgate/rules/hanging"
	"cutgate/rules/heading"
	"cutgate/rules/hem"
	"cutgate/rules/hole"
	"cutgate/rules/length"
	"cutgate/rules/press"
	"cutgate/rules/safety"
	"cutgate/rules/seam"
	"cutgate/rules/shade"
	"cutgate/rules/table"
	"cutgate/rules/tieback"
	"cutgate/rules/valance"
	"cutgate/rules/waiver"
	"cutgate/rules/width"
)

// All returns every rule, topic by topic.
func All() []*rule.Rule {
	return slices.Concat(
		length.Rules(),
		width.Rules(),
		seam.Rules(),
		hem.Rules(),
		hole.Rules(),
		heading.Rules(),
		press.Rules(),
		cloth.Rules(),
		fabric.Rules(),
		hanging.Rules(),
		table.Rules(),
		shade.Rules(),
		valance.Rules(),
		cornice.Rules(),
		cushion.Rules(),
		bed.Rules(),
		tieback.Rules(),
		safety.Rules(),
		form.Rules(),
		waiver.Rules(),
	)
}
