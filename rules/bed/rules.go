package bed

import (
	"slices"

	"cutgate/internal/rule"
)

// Rules are the topic's rules.
func Rules() (list []*rule.Rule) {
	guards := slices.Concat(pillowGuards)
	for i := range guards {
		list = append(list, guards[i].Rule())
	}
	return list
}
