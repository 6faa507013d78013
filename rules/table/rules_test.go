package table_test

import (
	"testing"

	"cutgate/internal/ruletest"
	"cutgate/rules/table"
)

func TestRules(t *testing.T) { ruletest.Run(t, table.Rules(), ".") }
