package bed

import (
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

const common = worksheet.Common

// Rules are the topic's rules.
func Rules() (list []*rule.Rule) {
	for i := range skirtGuards {
		list = append(list, skirtGuards[i].Rule())
	}
	return append(list, skirtDropOff)
}
