package heading_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/heading"
)

func TestRules(t *testing.T) { ruletest.Run(t, heading.Rules(), ".") }
