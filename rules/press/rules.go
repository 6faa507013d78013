package press

import "cutgate/internal/rule"

// Rules are the topic's rules: the iron, its steam, what is fused, the label.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		tooHot,
		tooCool,
		unironable,
		steamOnOneDot,
		bareIron,
		fusingTooHot,
		fusingTooCool,
		fusingUnsaid,
		careOverFiber,
	}
}
