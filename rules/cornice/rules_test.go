package cornice_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/cornice"
)

func TestRules(t *testing.T) { ruletest.Run(t, cornice.Rules(), ".") }
