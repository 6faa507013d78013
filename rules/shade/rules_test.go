package shade_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/shade"
)

func TestRules(t *testing.T) { ruletest.Run(t, shade.Rules(), ".") }
