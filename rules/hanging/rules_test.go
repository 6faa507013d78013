package hanging_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/hanging"
)

func TestRules(t *testing.T) { ruletest.Run(t, hanging.Rules(), ".") }
