package hem_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/hem"
)

func TestRules(t *testing.T) { ruletest.Run(t, hem.Rules(), ".") }
