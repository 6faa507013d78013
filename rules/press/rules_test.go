package press_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/press"
)

func TestRules(t *testing.T) { ruletest.Run(t, press.Rules(), ".") }
