package tieback_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/tieback"
)

func TestRules(t *testing.T) { ruletest.Run(t, tieback.Rules(), ".") }
