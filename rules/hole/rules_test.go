package hole_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/hole"
)

func TestRules(t *testing.T) { ruletest.Run(t, hole.Rules(), ".") }
