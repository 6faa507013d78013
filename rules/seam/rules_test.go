package seam_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/seam"
)

func TestRules(t *testing.T) { ruletest.Run(t, seam.Rules(), ".") }
