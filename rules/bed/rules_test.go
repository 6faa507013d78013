package bed_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/bed"
)

func TestRules(t *testing.T) { ruletest.Run(t, bed.Rules(), ".") }
