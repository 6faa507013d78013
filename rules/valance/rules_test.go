package valance_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/valance"
)

func TestRules(t *testing.T) { ruletest.Run(t, valance.Rules(), ".") }
