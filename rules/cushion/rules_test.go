package cushion_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/cushion"
)

func TestRules(t *testing.T) { ruletest.Run(t, cushion.Rules(), ".") }
