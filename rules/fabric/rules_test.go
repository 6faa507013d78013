package fabric

import (
	"testing"

	"cutgate/internal/ruletest"
)

func TestRules(t *testing.T) { ruletest.Run(t, Rules(), ".") }
